// The drive with the debrief is pulled out while it is open on the desk, and put in again.
import { spawnSync } from "node:child_process";
import { mkdtemp, mkdir, readFile, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { failureSaid } from "../../support/said.ts";
import { documentIn, made } from "./deskParts.ts";
import { openDesk, putRide } from "./openDesk.ts";

const run = (program: string, ...args: string[]): boolean => spawnSync(program, args, { stdio: "ignore" }).status === 0;

/** Drives of a file each, where this user may mount one; null: it can't be done here. */
async function drives(top: string): Promise<{ mount(name: string, at: string): Promise<boolean> } | null> {
  const make = async (name: string, at: string): Promise<boolean> => {
    const image = join(top, `${name}.img`);
    if (!(await readdir(top)).includes(`${name}.img`)) {
      if (!run("truncate", "-s", "8M", image) || !run("mkfs.ext4", "-q", "-F", image)) return false;
    }
    await mkdir(at, { recursive: true });
    return run("mount", "-o", "loop", image, at);
  };
  if (process.platform !== "linux") return null;
  const trial = join(top, "trial");
  if (!(await make("trial", trial))) return null;
  run("umount", trial);
  return { mount: make };
}

test("what is edited while the drive is gone is neither lost nor written into its empty place, and is saved when it is back", async (context) => {
  const top = await mkdtemp(join(tmpdir(), "drive "));
  const disk = await drives(top);
  if (disk === null) {
    await rm(top, { recursive: true, force: true });
    return context.skip("no drive can be mounted by this user");
  }
  const place = join(top, "drive");
  const other = join(top, "another");
  const open = await openDesk(join(top, "home"));
  try {
    expect(await disk.mount("rides", place)).toBe(true);
    await open.api.addFiles([open.id(await putRide(place))]);
    const words = (notes: string) =>
      made({ part: "words", value: { ...open.view().document.words, notes }, label: "note" }, open);
    await words("one");
    await open.api.saveNow();
    const folder = join(place, "sunday-debrief");
    expect((await documentIn(folder)).words.notes).toBe("one");

    expect(run("umount", "-l", place)).toBe(true);
    await words("two");
    await open.api.saveNow();
    const { saved } = open.view();
    expect(saved).toMatchObject({ code: "output-not-writable" });
    // An empty folder of that name, as some systems leave it, is not the drive either.
    await mkdir(folder);
    await words("three");
    await open.api.saveNow();
    expect(open.view().saved).toMatchObject({ notice: { code: "folder-replaced", facts: { folder } } });
    expect(await readdir(folder)).toEqual([]);
    expect(failureSaid(open.view().saved as never).remedy).toContain("connect the drive again");
    // It is not closed silently: a copy is kept elsewhere, and the debrief stays open.
    const refused = await open.api.closeDebrief().catch((error: unknown) => error);
    const { keptAt } = (refused as { notice: { facts: { keptAt: string } } }).notice.facts;
    expect((await documentIn(keptAt)).words.notes).toBe("three");
    expect(open.view().document.words.notes).toBe("three");

    // Back, as another device.
    await rm(folder, { recursive: true });
    expect(await disk.mount("another", other)).toBe(true);
    expect(await disk.mount("rides", place)).toBe(true);
    await expect.poll(() => open.view().saved, { timeout: 30_000 }).toBe("saved");
    expect((await documentIn(folder)).words.notes).toBe("three");
    expect(await readFile(join(folder, "debrief.json.bak"), "utf8")).toContain('"one"');
    await open.api.closeDebrief();
    expect(await readdir(folder)).not.toContain("debrief.lock");
  } finally {
    await open.close().catch(() => undefined);
    for (const at of [place, other]) run("umount", "-l", at);
    await rm(top, { recursive: true, force: true });
  }
}, 180_000);
