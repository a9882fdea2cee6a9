import { createRoot } from "react-dom/client";

createRoot(document.getElementById("window")!).render(<main />);
