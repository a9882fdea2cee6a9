import { durationText } from "../../overlay/words/numbers.ts";
import type { DebriefPhrases, PageFacts } from "../../overlay/words/debriefPhrases.ts";
import { storyForLesson } from "../../overlay/words/debriefStory.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { htmlPage } from "../../overlay/page/htmlPage.ts";
import { base64 } from "./base64.ts";
import { escapeHtml as safe } from "../../overlay/page/escapeHtml.ts";
import { type EventLadder, eventLadderSvg } from "./eventLadderSvg.ts";
import { type HandoverData, type Still, handoverTitle, momentTitle, shownMoments } from "./handoverData.ts";
import { pageFacts } from "./pageFacts.ts";
import { rideChart } from "./rideChart.ts";
import { rideChartSvg } from "./rideChartSvg.ts";

/** Ride shown on either side of a moment without a picture, s. */
const CONTEXT_S = 180;

/** Moments that the heart tells, not the power. */
const HEART_KINDS = new Set(["driftOnset", "oddHeart"]);

/** The phrase table of what is handed over: a lesson may say watts as a share of the plan. */
export function handoverWords(data: HandoverData): DebriefPhrases {
  return debriefWords(
    data.language,
    data.forWhom === "lesson" && data.asPercent ? (data.reading.bandW?.target ?? null) : null,
  );
}

/** The three lines of the debrief: what went well, what to change, the next ride. */
export function threeLines(data: HandoverData, words: DebriefPhrases): [string, string, string] {
  const kept = data.forWhom === "lesson" ? storyForLesson(data.story, data.asPercent) : data.story;
  return [words.heldLine(kept), words.changeLine(kept), words.nextLine(kept)];
}

/** Up to three questions: the coach's, else made from the ride. */
export function questionsFor(data: HandoverData, words: DebriefPhrases): readonly string[] {
  if (data.forWhom === "lesson") return [];
  if (data.questions !== null) return data.questions.slice(0, 3);
  const shown = shownMoments(data).map((index) => data.momentFacts[index]);
  const { heat, sleep, foodAndDrink } = data.plan.note;
  return words.page.makeQuestions(data.story, shown, data.reading.drift, {
    day: heat !== null || sleep !== null || foodAndDrink !== null,
  });
}

function paragraphs(text: string): string {
  return text
    .split(/\n\s*\n|\n/)
    .filter((line) => line.trim() !== "")
    .map((line) => `<p>${safe(line)}</p>`)
    .join("\n");
}

function setByCoach(data: HandoverData, words: DebriefPhrases, whats: readonly string[]): string {
  const set = data.reading.overrides.some((one) => whats.includes(one.what));
  return set ? ` <span class="quiet">(${safe(words.page.setByCoach)})</span>` : "";
}

function planTable(data: HandoverData, words: DebriefPhrases, facts: PageFacts): string {
  const { page } = words;
  const rows = page.rows(facts).map((row, index) => {
    const mark =
      index === 0 &&
      (data.reading.counted.source === "coach" || data.reading.overrides.some((one) => one.what === "counted"))
        ? ` <span class="quiet">(${safe(page.setByCoach)})</span>`
        : "";
    return `<tr><th scope="row">${safe(row.label)}</th><td>${safe(row.plan)}</td><td>${safe(row.ride)}${mark}</td></tr>`;
  });
  const head = page.columns
    .map((column, index) => (index === 0 ? `<td></td>` : `<th scope="col">${safe(column)}</th>`))
    .join("");
  return `<table>\n<thead><tr>${head}</tr></thead>\n<tbody>\n${rows.join("\n")}\n</tbody>\n</table>`;
}

function stillFigure(still: Still, alt: string): string {
  const [type, bytes] = still.jpeg === null ? ["image/png", still.png] : ["image/jpeg", still.jpeg];
  return `<img src="data:${type};base64,${base64(bytes)}" width="${still.widthPx}" height="${still.heightPx}" alt="${safe(alt)}">`;
}

function momentSections(data: HandoverData, words: DebriefPhrases, facts: PageFacts): string {
  return shownMoments(data)
    .map((index) => {
      const moment = data.reading.moments[index];
      const own = data.momentFacts[index];
      const name = momentTitle(data, words, index);
      const heading = words.page.momentHeading(
        name,
        moment.kind === "driftOnset" ? (data.reading.drift.onsetS ?? moment.startS) : moment.startS,
        moment.kind === "driftOnset",
      );
      const still = data.stills.find((one) => one.moment === index);
      const sentence = words.page.momentSentence(words.film.caption(own));
      const chart =
        still === undefined
          ? rideChart(data, words, facts, {
              id: `moment-${index}`,
              fromS: moment.startS - CONTEXT_S,
              toS: moment.endS + CONTEXT_S,
              title: name,
              moment,
              heart: HEART_KINDS.has(moment.kind),
            })
          : null;
      const picture =
        still !== undefined
          ? stillFigure(still, words.page.stillAlt(name, moment.startS))
          : chart === null
            ? ""
            : rideChartSvg({ ...chart, alt: `${heading}. ${sentence}` });
      const caption = `${safe(sentence)}${moment.setBy === "coach" ? ` <span class="quiet">(${safe(words.page.setByCoach)})</span>` : ""}`;
      const note = data.forWhom === "lesson" ? undefined : data.momentNotes.get(index);
      return (
        `<section>\n<h3>${safe(heading)}</h3>\n` +
        (picture === ""
          ? `<p>${caption}</p>`
          : `<figure class="moment">${picture}<figcaption>${caption}</figcaption></figure>`) +
        (note === undefined ? "" : `\n<div class="note">${paragraphs(note)}</div>`) +
        `\n</section>`
      );
    })
    .join("\n");
}

function eventSection(data: HandoverData, words: DebriefPhrases): string {
  const event = data.story.event;
  if (event === null) return "";
  const { page } = words;
  const named = data.forWhom === "lesson" ? { ...event, name: null } : event;
  const held = page.heldText(event.heldLowS, event.heldHighS);
  const asked = (label: string, seconds: number): EventLadder["rungs"][number] => ({
    label,
    text: durationText(seconds),
    lowS: seconds,
    highS: seconds,
    kind: "asked",
  });
  const ladder = eventLadderSvg({
    title: page.event,
    alt: `${page.eventLines(named).join(" ")} ${page.eventKeys.held}: ${held}.`,
    rungs: [
      asked(page.eventKeys.event, event.eventS),
      asked(page.eventKeys.least, event.leastS),
      asked(page.eventKeys.aim, event.aimS),
      ...(event.heldLowS === null
        ? []
        : [
            {
              label: page.eventKeys.held,
              text: held,
              lowS: event.heldLowS,
              highS: event.heldHighS,
              kind: "ridden" as const,
            },
          ]),
    ],
  });
  return `<section class="whole">\n<h2>${safe(page.event)}</h2>\n${page
    .eventLines(named)
    .map((line) => `<p>${safe(line)}</p>`)
    .join("\n")}\n<figure>${ladder}</figure>\n</section>`;
}

function list(items: readonly string[], tag: "ul" | "ol"): string {
  return `<${tag}>\n${items.map((item) => `<li>${safe(item)}</li>`).join("\n")}\n</${tag}>`;
}

/**
 * The athlete's debrief as one HTML file that works offline and without scripts, on a phone and on paper. Plain
 * sentences from the phrase table; every number from the reading. A lesson has no name, day, place or note in it.
 */
export function pageHtml(data: HandoverData): string {
  const words = handoverWords(data);
  const { page } = words;
  const facts = pageFacts(data);
  const title = handoverTitle(data, words);
  const [held, change, next] = threeLines(data, words);
  const chart = rideChart(data, words, facts, {
    id: "ride",
    fromS: 0,
    toS: data.ride.grid.seconds,
    title: page.chart,
    moment: null,
    heart: true,
  });
  const heart = data.ride.grid.heartRate === null ? [] : page.heart(data.reading.drift);
  const questions = questionsFor(data, words);
  const who = data.forWhom === "lesson" ? [] : [data.plan.rider, data.dateText].filter((one) => one !== null);
  const moments = momentSections(data, words, facts);
  const body = [
    `<header>\n<h1>${safe(title)}</h1>${who.length === 0 ? "" : `\n<p class="quiet">${safe(who.join(", "))}</p>`}\n</header>\n<main>`,
    `<section>\n<h2>${safe(page.three)}</h2>\n<ul class="three">\n<li><b>${safe(page.wentWell)}</b><span>${safe(held)}</span></li>\n<li class="gap"><b>${safe(page.toChange)}</b><span>${safe(change)}</span></li>\n<li><b>${safe(page.nextRide)}</b><span>${safe(next)}</span></li>\n</ul>\n</section>`,
    data.notes === null || data.forWhom === "lesson"
      ? ""
      : `<section>\n<h2>${safe(page.notes)}</h2>\n<div class="note">${paragraphs(data.notes)}</div>\n</section>`,
    `<section>\n<h2>${safe(page.planAndRide)}</h2>\n${planTable(data, words, facts)}\n</section>`,
    chart === null
      ? ""
      : `<section>\n<h2>${safe(page.chart)}</h2>\n<figure>${rideChartSvg(chart)}${heart.length === 0 ? "" : `<figcaption>${safe(heart.join(" "))}${setByCoach(data, words, ["first", "last", "onset"])}</figcaption>`}</figure>\n</section>`,
    moments === "" ? "" : `<section>\n<h2>${safe(page.moments)}</h2>\n${moments}\n</section>`,
    eventSection(data, words),
    questions.length === 0 ? "" : `<section>\n<h2>${safe(page.questions)}</h2>\n${list(questions, "ol")}\n</section>`,
    `<section>\n<h2>${safe(page.cautionsTitle)}</h2>\n${list(page.cautions, "ul")}\n</section>\n</main>\n<footer><p>${safe(page.footer)}</p></footer>`,
  ];
  return htmlPage(
    words.language,
    `${title}${who.length === 0 ? "" : `, ${who.join(", ")}`}`,
    body.filter((part) => part !== "").join("\n"),
    data.fonts,
  );
}
