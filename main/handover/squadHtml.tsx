import type { ReactNode } from "react";
import type { Language } from "../contract/languageAndUnits.ts";
import type { PageFont } from "../contract/pageFont.ts";
import type { SquadPicture, SquadRow, SquadTold } from "../contract/squad.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { keptFailureText } from "../../overlay/words/notices/noticeText.ts";
import { type SquadPhrases, squadWords } from "../../overlay/words/squadWords.ts";
import { htmlPage } from "../page/htmlPage.tsx";
import { Section } from "../page/parts.tsx";

interface ToldRow extends SquadRow {
  readonly told: SquadTold;
}

function Picture({ picture, told }: { readonly picture: SquadPicture; readonly told: boolean }): ReactNode {
  const { type, base64, widthPx, heightPx, alt } = picture;
  return (
    <figure>
      <img src={`data:${type};base64,${base64}`} width={widthPx} height={heightPx} alt={alt} />
      {told && <figcaption className="quiet">{alt}</figcaption>}
    </figure>
  );
}

/** A path from the page as an address: no letter of a folder's name can end or change it. */
function address(...parts: readonly string[]): string {
  return `./${parts.flatMap((part) => part.split("/").map(encodeURIComponent)).join("/")}`;
}

function Ride({ row, words, index }: { readonly row: ToldRow; readonly words: SquadPhrases; readonly index: number }) {
  const { told } = row;
  const who = told.rider ?? row.ride;
  const [held, change, next] = told.lines;
  return (
    <article className="ride">
      <h2>
        {[who, told.dateText].filter((one) => one !== null).join(", ")}
        <span className="quiet">
          {` ${[told.title, durationText(told.elapsedS)].filter((one) => one !== null).join(", ")}`}
        </span>
      </h2>
      <input className="seen" type="checkbox" id={`seen-${index}`} defaultChecked={row.seen} />
      <label htmlFor={`seen-${index}`}>{`${words.seen}: ${who}`}</label>
      <div className="rest">
        {told.looks.length === 0 ? (
          <p className="quiet">{words.noLooks}</p>
        ) : (
          <div className="look">
            <b>{words.looksTitle}</b>
            <ul>
              {told.looks.map((look, at) => (
                <li key={at}>{words.look(look)}</li>
              ))}
            </ul>
          </div>
        )}
        <ul className="three" lang={told.language}>
          <li>{held}</li>
          <li className="gap">{change}</li>
          <li>{next}</li>
        </ul>
        {told.pictures.length > 0 && (
          <div className="pair" lang={told.language}>
            {told.pictures.map((picture, at) => (
              <Picture key={at} picture={picture} told={at > 0} />
            ))}
          </div>
        )}
        <details>
          <summary>{words.message}</summary>
          <p className="quiet">{words.messageMore}</p>
          <pre className="copy" lang={told.language}>
            {told.message}
          </pre>
        </details>
        {row.hasFilm && (
          <p className="quiet">
            <a href={address(row.folder, "film.mp4")}>{words.film}</a>
            {", "}
            <a href={address(row.folder, "coach.html")}>{words.figures}</a>
          </p>
        )}
      </div>
    </article>
  );
}

/**
 * What could not be prepared first, then what nobody has seen, then the rest; among each, rides that need a look first;
 * else the order of their files.
 */
export function inReadingOrder<Row extends Pick<SquadRow, "kept" | "seen">>(rows: readonly Row[]): Row[] {
  const place = ({ kept, seen }: Row): number =>
    kept?.told ? (seen ? 3 : 1) + (kept.told.looks.length > 0 ? 0 : 1) : 0;
  return [...rows].sort((a, b) => place(a) - place(b));
}

/**
 * A batch of rides on one page for the coach, without scripts: for each what needs a look, the three lines, two pictures,
 * a tick and the message that would go out. What could not be prepared stands first, with why and what to do.
 */
export function squadHtml(rows: readonly SquadRow[], language: Language, fonts: readonly PageFont[]): string {
  const words = squadWords(language);
  const told: ToldRow[] = inReadingOrder(rows).flatMap((row) =>
    row.kept?.told ? [{ ...row, told: row.kept.told }] : [],
  );
  const failed = rows.flatMap(({ ride, kept }) =>
    kept?.failure ? [{ ride, ...keptFailureText(kept.failure, ride, language, "command") }] : [],
  );
  const waiting = rows.filter(({ kept }) => kept === null);
  const counts = {
    rides: rows.length,
    looks: told.filter(({ told: { looks }, seen }) => looks.length > 0 && !seen).length,
    seen: told.filter(({ seen }) => seen).length,
    failed: failed.length,
    waiting: waiting.length,
  };
  const body = (
    <>
      <header>
        <h1>{words.title}</h1>
        <p>{words.counts(counts)}</p>
        <p className="quiet">{words.tick}</p>
      </header>
      <main>
        {failed.length + waiting.length > 0 && (
          <Section title={words.failedTitle}>
            <ul>
              {failed.map(({ ride, sentence, remedy }) => (
                <li key={ride}>
                  <b>{ride}</b>
                  {`: ${sentence} ${remedy}`}
                </li>
              ))}
              {waiting.map(({ ride }) => (
                <li key={ride}>
                  <b>{ride}</b>
                  {`: ${words.waiting}`}
                </li>
              ))}
            </ul>
          </Section>
        )}
        {told.map((row, index) => (
          <Ride key={index} row={row} words={words} index={index + 1} />
        ))}
      </main>
      <footer>
        <p>{words.caution}</p>
      </footer>
    </>
  );
  return htmlPage(language, words.title, body, fonts);
}
