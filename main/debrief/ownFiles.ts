/** What is written for a ride or an athlete, by its name in their folder. */
const WRITTEN: ReadonlySet<string> = new Set([
  "athlete.json",
  "captions.vtt",
  "chapters.ffmetadata",
  "chapters.txt",
  "chapters.vtt",
  "coach.html",
  "debrief.html",
  "debrief.json",
  "debrief.json.bak",
  "debrief.lock",
  "debrief.lock.taking",
  "debrief.pdf",
  "film.mp4",
  "folder.txt",
  "message.txt",
  "moments.csv",
  "moments.json",
  "plan.html",
  "plan.json",
  "plan.pdf",
  "playing.html",
  "squad-row.json",
  "squad.html",
  "timeline.otio",
  "weeks.html",
]);
/** Documents of an older schema, and what was not finished. */
const MARKED = /^debrief\.schema-\d+(-\d+)?\.json$|\.part(\..*)?$/;
/** Recordings and pictures of a ride: film, sound, still, ride file. */
const RECORDED = /\.(mp4|mov|m4v|lrv|webm|mkv|wav|m4a|png|jpe?g|fit|gpx|tcx|csv)(\.gz)?$/i;

/** True for a file that is written under this name, last part of its path. */
export function isWritten(name: string): boolean {
  return WRITTEN.has(name) || MARKED.test(name);
}

/** True for a file that belongs to a debrief whose folder it lies in: what is written there, and every recording. */
export function isOfDebrief(name: string): boolean {
  return isWritten(name) || RECORDED.test(name);
}
