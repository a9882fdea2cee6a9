import { basename } from "node:path";
import type { Edit, MediaRef } from "../../contract/debrief.ts";
import { clipsShownBy } from "../../contract/film.ts";
import { note } from "../../contract/notice.ts";
import type { Ride } from "../../contract/ride.ts";
import { athletePathFrom } from "../../debrief/athleteFolder.edge.ts";
import { firstPlanOfAthlete } from "../../journey/athleteDefaults.ts";
import { planOfFile } from "../../journey/planSource.ts";
import { readGivenRide } from "../../journey/givenRide.ts";
import { type GatheredClip, readClip, sortFiles } from "../../journey/gather.ts";
import type { DeskContext } from "./deskContext.ts";
import { failureData } from "./failureData.ts";
import type { Session } from "./session.ts";

interface Found {
  readonly path: string;
  readonly read:
    { readonly kind: "ride"; readonly ride: Ride } | { readonly kind: "clip"; readonly gathered: GatheredClip };
}

/** The next free id of a kind, `ride1`, `clip1` …; those of files taken off the desk are not used again. */
function freeId(session: Session, kind: MediaRef["kind"]): string {
  const taken = (id: string): boolean =>
    session.rides.has(id) || session.clips.has(id) || session.document.media.some((media) => media.id === id);
  let n = 1;
  while (taken(`${kind}${n}`)) n++;
  return `${kind}${n}`;
}

/**
 * Reads files and puts them on the desk. A file that can't be used stays listed with what is wrong; one that is there
 * already is left alone. The first ride chooses where the debrief will be.
 */
export async function gatherFiles(session: Session, paths: readonly string[], desk: DeskContext): Promise<void> {
  const { jobs, host } = desk;
  const planPaths = paths.filter((path) => PLAN_NAMES.test(path));
  const others = [...new Set(paths)].filter((path) => !planPaths.includes(path));
  const { ridePaths, clipPaths } = await sortFiles(others.filter((path) => !onDesk(session, path)));
  const total = ridePaths.length + clipPaths.length;
  if (total === 0) return takePlanFile(session, planPaths.at(-1));
  const found: Found[] = [];
  const job = jobs.add({
    what: "gather",
    title: { of: "files", count: total, first: basename(ridePaths[0] ?? clipPaths[0]!) },
    background: false,
    beside: true,
    async run({ signal, report }) {
      let done = 0;
      const each = async (path: string, read: () => Promise<Found["read"]>): Promise<void> => {
        if (signal.aborted) return;
        report({ done: done / total, leftS: null, step: { what: "file", name: basename(path) } });
        forgetUnusable(session, path);
        try {
          found.push({ path, read: await read() });
        } catch (error) {
          listUnusable(session, path, error);
        }
        done += 1;
      };
      for (const path of ridePaths)
        await each(path, async () => ({ kind: "ride", ride: await readGivenRide(path, host.rides) }));
      for (const path of clipPaths)
        await each(path, async () => ({ kind: "clip", gathered: await readClip(path, host) }));
    },
  });
  if ((await job.settled).state === "cancelled") return;
  if (found.length > 0) await putOnDesk(session, found);
  await takePlanFile(session, planPaths.at(-1));
}

const PLAN_NAMES = /\.json$/i;

/** A plan file says what was asked, over the athlete's values; one that can't be used is listed as such. */
async function takePlanFile(session: Session, path: string | undefined): Promise<void> {
  if (path === undefined) return;
  forgetUnusable(session, path);
  try {
    const shown = session.rides.get(session.document.shownRideId)?.ride ?? null;
    const { athleteDir } = session.rider;
    const plan = await planOfFile(path, athleteDir, session.document.plan, shown);
    await session.plan(plan, `plan of ${basename(path)}`);
  } catch (error) {
    listUnusable(session, path, error);
  }
}

function onDesk(session: Session, path: string): boolean {
  const { media } = session.document;
  const has = (id: string, of: string): boolean => of === path && media.some((one) => one.id === id);
  return (
    [...session.rides].some(([id, ride]) => has(id, ride.path)) ||
    [...session.clips].some(([id, clip]) => has(id, clip.path))
  );
}

async function putOnDesk(session: Session, found: readonly Found[]): Promise<void> {
  const before = session.document;
  const firstRide = found.find(({ read }) => read.kind === "ride");
  const placeIsNew = session.folder === null && firstRide !== undefined;
  if (placeIsNew) await session.choosePlace(firstRide.path, session.rider.athleteDir);
  const kept: MediaRef[] = [];
  for (const media of before.media) {
    const path = session.rides.get(media.id)?.path ?? session.clips.get(media.id)?.path;
    kept.push(placeIsNew && path !== undefined ? await session.refer(path, media.id, media.kind) : media);
  }
  const added: MediaRef[] = [];
  for (const { path, read } of found) {
    const id = freeId(session, read.kind);
    const ref = await session.refer(path, id, read.kind);
    // One that is listed but not found is no second one: its file has come back.
    const same = [...kept, ...added].find(
      ({ id: of, fingerprint }) => fingerprint === ref.fingerprint && (session.rides.has(of) || session.clips.has(of)),
    );
    if (same !== undefined) {
      session.notes.push(note("file-given-twice", { fileName: basename(path), sameAs: basename(same.path) }));
      continue;
    }
    if (read.kind === "ride") session.takeRide(id, { path, ride: read.ride });
    else session.takeClip(id, read.gathered);
    added.push(ref);
  }
  if (added.length === 0) return;
  const shown = before.media.some(({ id }) => id === before.shownRideId)
    ? before.shownRideId
    : (added.find(({ kind }) => kind === "ride")?.id ?? before.shownRideId);
  const label = `add ${added.length === 1 ? basename(found[0]!.path) : `${added.length} files`}`;
  const edits: Edit[] = [{ part: "media", value: [...kept, ...added], label }];
  if (shown !== before.shownRideId) edits.push({ part: "shownRideId", value: shown, label });
  // Before there is a place, paths have nothing to start from: what was done until then is not undone.
  const { folder } = session;
  const { athlete, athleteDir } = session.rider;
  const athletePath = athleteDir !== null && folder !== null ? athletePathFrom(folder, athleteDir) : before.athletePath;
  if (placeIsNew || before.media.length === 0) {
    const plan =
      placeIsNew && athlete !== null && firstRide.read.kind === "ride"
        ? firstPlanOfAthlete(before.plan, athlete, firstRide.read.ride)
        : before.plan;
    await session.note({ media: [...kept, ...added], shownRideId: shown, athletePath, plan });
  } else await session.arrange(edits);
}

function forgetUnusable(session: Session, path: string): void {
  const at = session.unusable.findIndex(({ path: of }) => of === path);
  if (at >= 0) session.unusable.splice(at, 1);
}

function listUnusable(session: Session, path: string, error: unknown): void {
  const failure = failureData(error);
  const id = `file${session.unusable.length + 1}-${session.edit}`;
  session.unusable.push({
    path,
    view: {
      id,
      kind: "unusable",
      name: basename(path),
      holds: "",
      missing: [],
      failure,
      shown: false,
      durationS: 0,
    },
  });
}

/** Takes a file off the desk; what stands in the film or hangs on it is left out with it. */
export async function removeFromDesk(session: Session, mediaId: string): Promise<void> {
  const at = session.unusable.findIndex(({ view }) => view.id === mediaId);
  if (at >= 0) {
    session.unusable.splice(at, 1);
    return;
  }
  const { document } = session;
  if (!document.media.some(({ id }) => id === mediaId)) return;
  const name = session.rides.get(mediaId)?.ride.fileName ?? session.clips.get(mediaId)?.fileName ?? mediaId;
  const label = `remove ${name}`;
  const media = document.media.filter(({ id }) => id !== mediaId);
  const edits: Edit[] = [{ part: "media", value: media, label }];
  if (document.shownRideId === mediaId)
    edits.push({ part: "shownRideId", value: media.find(({ kind }) => kind === "ride")?.id ?? "", label });
  const anchors = document.anchors.filter(({ clipId }) => clipId !== mediaId);
  if (anchors.length < document.anchors.length) edits.push({ part: "anchors", value: anchors, label });
  if (document.film !== null) {
    const items = document.film.items.filter((item) => !clipsShownBy(item).includes(mediaId));
    if (items.length < document.film.items.length)
      edits.push({ part: "film", value: { ...document.film, items }, label });
  }
  await session.arrange(edits);
}
