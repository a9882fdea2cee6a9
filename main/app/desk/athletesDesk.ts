import { stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import type { AthleteEntry, DebriefApi, PathId } from "../../contract/debriefApi.ts";
import { Failure } from "../../contract/failure.ts";
import { parseAthlete, type Athlete } from "../../debrief/athlete.ts";
import { ATHLETE_FILE, loadAthlete, saveAthlete } from "../../debrief/athleteStore.edge.ts";
import { athleteListing, deleteListed, mustBeName, type AthleteListing } from "../../debrief/athleteListing.edge.ts";
import { debriefsElsewhere, debriefsOf, debriefsOfAthletes, type KnownDebrief } from "../../journey/listedDebriefs.ts";
import { weeksPage } from "../../journey/weeksPage.ts";
import { rideDateText } from "../../../overlay/words/dateText.ts";
import { athleteLines } from "../../../overlay/words/athleteWords.ts";
import type { DeskContext } from "./deskContext.ts";
import { knownFolders, remember } from "../../host/knownFolders.edge.ts";
import { noticeTexts } from "../../../overlay/words/notices/noticeText.ts";

type AthleteCalls = Pick<
  DebriefApi,
  "athletes" | "saveAthlete" | "readAthlete" | "filesOfAthlete" | "deleteAthlete" | "weeksPage"
>;

/** The athlete's folder that an id stands for: itself, or that of the athlete.json it names. */
export function athleteFolderOf(path: string): string {
  return basename(path) === ATHLETE_FILE ? dirname(path) : path;
}

/** A name as a folder: letters and digits of any script stay, what no system takes does not. */
function folderName(name: string): string {
  const plain = name
    .normalize("NFC")
    .replace(/[^\p{L}\p{N} ._-]+/gu, "")
    .replace(/^[. ]+|[. ]+$/g, "");
  return plain === "" || /^(con|prn|aux|nul|com\d|lpt\d)$/i.test(plain) ? "athlete" : plain;
}

function linesOf({ road, trainer, events, homeZone, lessonConsent }: Athlete): string[] {
  const targets = (
    [
      ["road", road],
      ["trainer", trainer],
    ] as const
  ).flatMap(([setting, { targetW, toleranceW, foundDate }]) => {
    const foundMs = foundDate === null ? Number.NaN : Date.parse(foundDate);
    return targetW === null
      ? []
      : [
          {
            setting,
            targetW,
            toleranceW,
            dateText: Number.isNaN(foundMs) ? foundDate : rideDateText(foundMs, 0, "en"),
          },
        ];
  });
  return athleteLines({ targets, events, homeHidden: homeZone !== null, lessonConsent: lessonConsent?.given ?? null });
}

/** Who hears of athletes that change. */
interface AthletesHeard {
  /** An athlete's file was changed. */
  saved(folder: string, athlete: Athlete): Promise<void>;
  /** An athlete's folder is about to be deleted. */
  gone(folder: string): Promise<void>;
  /** The pictures kept for speed were deleted with it, those of other athletes too. */
  picturesGone(): Promise<void>;
}

/** The calls about athletes. */
export function athletesDesk({ surroundings, host }: DeskContext, heard: AthletesHeard): AthleteCalls {
  const { paths, shelf } = surroundings;
  const folderOf = (id: PathId): string => athleteFolderOf(paths.pathOf(id));
  /** The list a person was shown: nothing else is deleted. */
  const shown = new Map<string, AthleteListing>();
  let page: string | null = null;

  const known = async (): Promise<readonly KnownDebrief[]> => debriefsOfAthletes((await knownFolders()).debriefs);
  const entry = async (folder: string, debriefs: readonly KnownDebrief[]): Promise<AthleteEntry | null> => {
    const athlete = await loadAthlete(folder).catch(() => null);
    if (athlete === null) return null;
    return {
      id: paths.idOf(folder),
      folder,
      name: athlete.name,
      debriefs: await debriefsOf(folder, debriefs),
      lines: linesOf(athlete),
    };
  };
  const athleteIn = async (folder: string): Promise<Athlete> => {
    const athlete = await loadAthlete(folder);
    if (athlete === null) throw new Failure("athlete-gone", { folder });
    return athlete;
  };

  return {
    async athletes() {
      const debriefs = await known();
      const entries = await Promise.all((await knownFolders()).athletes.map((folder) => entry(folder, debriefs)));
      return entries.filter((one) => one !== null).sort((a, b) => a.name.localeCompare(b.name));
    },
    async saveAthlete(id, value) {
      const given = folderOf(id);
      const athlete = parseAthlete(JSON.stringify(value), ATHLETE_FILE);
      let folder = given;
      if ((await loadAthlete(given)) === null) {
        const wished = join(given, folderName(athlete.name));
        folder = wished;
        for (
          let n = 2;
          await stat(folder).then(
            () => true,
            () => false,
          );
          n++
        )
          folder = `${wished}-${n}`;
      }
      await saveAthlete(folder, athlete);
      await remember("athletes", folder);
      await heard.saved(folder, athlete);
      return (await entry(folder, await known()))!;
    },
    async readAthlete(id) {
      const folder = folderOf(id);
      const athlete = await athleteIn(folder);
      await remember("athletes", folder);
      return athlete;
    },
    async filesOfAthlete(id) {
      const folder = folderOf(id);
      const listing = await athleteListing(folder);
      shown.set(folder, listing);
      return { files: listing.files, others: listing.others };
    },
    async deleteAthlete(id, confirmName) {
      const folder = folderOf(id);
      const listing = shown.get(folder);
      if (listing === undefined) throw new Failure("athlete-list-not-shown", {});
      mustBeName(listing, confirmName);
      await heard.gone(folder);
      // With an open debrief its lock goes; what has come since the list was shown is not deleted unseen.
      const there = new Set((await athleteListing(folder)).files);
      const { kept } = await deleteListed(
        folder,
        { ...listing, files: listing.files.filter((file) => there.has(file)) },
        confirmName,
      );
      shown.delete(folder);
      await heard.picturesGone();
      const [first] = kept;
      if (first !== undefined)
        throw new Failure("athlete-files-kept", { count: kept.length, name: listing.athlete.name, first });
    },
    async weeksPage(id) {
      const folder = folderOf(id);
      const athlete = await loadAthlete(folder);
      const elsewhere = debriefsElsewhere(folder, await known());
      const name = athlete?.name ?? null;
      const { html, leftOut } = await weeksPage(folder, name, athlete?.language ?? "en", {
        elsewhere,
        rides: host.rides,
        headed: false,
      });
      if (page !== null) shelf.takeBack(page);
      page = shelf.lendPage(html);
      return { html, lines: noticeTexts(leftOut, "en", "window"), address: page };
    },
  };
}
