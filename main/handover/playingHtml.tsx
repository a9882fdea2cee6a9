import { Fragment } from "react";
import { clockText } from "../../overlay/words/numbers.ts";
import { playingWords } from "../../overlay/words/playingWords.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { htmlPage } from "../page/htmlPage.tsx";
import { PageHead, Section } from "../page/parts.tsx";
import { base64 } from "./base64.ts";
import { filmRuns } from "../../overlay/instant/filmRuns.ts";
import { filmCaptions, filmChapters } from "./filmText.ts";
import { type HandoverData, handoverTitle, toldMoments } from "./handoverData.ts";
import { handoverWords, threeLines } from "./handoverLines.ts";
import { pageFacts } from "./pageFacts.ts";
import { PLAYING_SCRIPT } from "./playingScript.ts";
import { wholeRideChart } from "./rideChart.ts";
import { RideChartSvg, chartSpan } from "./rideChartSvg.tsx";

/** `1:05` of film time: a film has no hours. */
function filmTime(seconds: number): string {
  const whole = Math.floor(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

/** A line of text that takes the film somewhere. `part`: it is lit while the film is there. */
function Goes({ filmS, text, part }: { readonly filmS: number; readonly text: string; readonly part: boolean }) {
  return (
    <button type="button" className="goes" data-film={filmS.toFixed(3)} data-part={part ? "yes" : undefined}>
      <span className="at">{filmTime(filmS)}</span> <span>{text}</span>
    </button>
  );
}

/**
 * The page with the film's bytes and its script before its end: bytes first, since the script takes them as it is read.
 * @returns bytes, since a film in letters may be longer than a string should be
 */
export function withFilm(html: string, film: Uint8Array): Uint8Array {
  const end = html.lastIndexOf("</body>");
  return Buffer.concat([
    Buffer.from(`${html.slice(0, end)}<script type="application/octet-stream" id="film-bytes">`),
    Buffer.from(base64(film), "latin1"),
    Buffer.from(`</script>\n<script>${PLAYING_SCRIPT}</script>${html.slice(end)}`),
  ]);
}

/**
 * A page in which the film plays with its ride: chart, parts and captions, each of which takes the film to its place. One
 * file: the film's bytes come into it before its end (`withFilm`). Its only script is our own, allowed by its hash.
 * @param scriptHash SHA-256 of `PLAYING_SCRIPT`, base64
 */
export function playingHtml(data: HandoverData, scriptHash: string): string {
  const words = handoverWords(data);
  const { page } = words;
  const own = playingWords(data.language);
  const lesson = data.forWhom === "lesson";
  const title = handoverTitle(data, words);
  const who = lesson ? [] : [data.plan.rider, data.dateText].filter((one) => one !== null);
  const { film } = data;
  const chapters = filmChapters(film, toldMoments(data), words, lesson ? undefined : data.momentNames);
  const captions = filmCaptions(film);
  const clock = filmClock(film);
  const runs = filmRuns(film).map(({ filmStartS, filmEndS, rideStartS, rideEndS }) =>
    [filmStartS, filmEndS, rideStartS, rideEndS].map((seconds) => Math.round(seconds * 1000) / 1000),
  );
  const chart = wholeRideChart(data, words, pageFacts(data));
  // The closing card is where the film says the three lines.
  const closing = film.items.findLastIndex((item) => item.type === "card" && item.card.kind === "closing");
  const closingS = clock.timeOf(clock.spans[closing]?.startFrame ?? 0);
  const lines = threeLines(data, words);
  const body = (
    <>
      <PageHead title={title} who={who} />
      <main>
        <video id="film" controls preload="metadata" aria-label={own.film} playsInline />
        <noscript>
          <p>{own.noScript}</p>
        </noscript>
        <p className="quiet">{own.how}</p>
        {chart !== null && runs.length > 0 && (
          <figure className="touch">
            <RideChartSvg chart={chart} />
            <button
              type="button"
              id="chart"
              tabIndex={-1}
              aria-label={own.chartButton}
              data-runs={JSON.stringify(runs)}
              data-drawn={JSON.stringify(chartSpan(chart))}
            >
              <span id="needle" />
            </button>
          </figure>
        )}
        {chart !== null && runs.length === 0 && (
          <figure>
            <RideChartSvg chart={chart} />
          </figure>
        )}
        <Section title={own.parts}>
          <ol className="parts">
            {chapters.map((chapter, index) => {
              const item = film.items[index]!;
              const moment = item.moment === null ? undefined : data.reading.moments[item.moment];
              const name = moment === undefined ? chapter.text : `${chapter.text}, ${clockText(moment.startS)}`;
              const said =
                item.type === "card"
                  ? []
                  : captions.filter(
                      ({ startS, text }) =>
                        startS >= chapter.startS && startS < chapter.endS && text.trim() !== chapter.text,
                    );
              return (
                <li key={index}>
                  <Goes filmS={chapter.startS} text={name} part />
                  {said.map((caption, at) => (
                    <Fragment key={at}>
                      <Goes filmS={caption.startS} text={caption.text.replaceAll(/\s+/g, " ")} part={false} />
                    </Fragment>
                  ))}
                </li>
              );
            })}
          </ol>
        </Section>
        <Section title={page.three}>
          <ul className="three">
            {lines.map((line, index) => (
              <li key={index} className={index === 1 ? "gap" : undefined}>
                <Goes filmS={closingS} text={line} part={false} />
              </li>
            ))}
          </ul>
        </Section>
      </main>
      <footer>
        <p>{page.cautions[0]}</p>
      </footer>
    </>
  );
  const html = htmlPage(words.language, [title, ...who].join(", "), body, data.fonts, scriptHash);
  // The renderer's own spelling of it is not HTML's.
  return html.replace(" playsInline=", " playsinline=");
}
