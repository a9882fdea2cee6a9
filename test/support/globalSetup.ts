import { bundle } from "../../main/setup/bundle.mjs";

/** Tests that start the program or a child of it run what the sources say now. */
export default async function setup(): Promise<void> {
  await bundle(process.cwd());
}
