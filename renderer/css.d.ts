/** Style sheets are bundled into main.css; importing one gives no value. */
declare module "*.css";
