import type { Language } from "../../../main/contract/languageAndUnits.ts";
import type { FollowWay, PairCard } from "../../../main/contract/pair.ts";
import type { RideColumns } from "../../../main/contract/rideColumns.ts";
import { pairItems, pairSeries } from "../../../main/film/pairItems.ts";
import { paintCard } from "../../../overlay/cards/paintCard.ts";
import { paceAt, pairAt } from "../../../overlay/pair/pairAt.ts";
import { createPairPainter } from "../../../overlay/pair/paintPair.ts";
import { darkInk, lightInk, type Theme } from "../../../overlay/theme.ts";
import { testCanvas } from "../../support/canvas.ts";
import { sampleRide } from "../support/sampleRide.ts";
import type { Scene } from "./scene.ts";

const WIDE = { gallery: [1920, 1080], golden: [640, 360] } as const;
const UPRIGHT = { gallery: [1080, 1920], golden: [360, 640] } as const;
const SQUARE = { gallery: [1080, 1080], golden: [400, 400] } as const;

const ride = sampleRide();
const [FROM, TO] = [4180, 4300];
/** The second came to each spot so much later, and lost time all along. */
const LATER_S = 312;
const spots = Array.from({ length: 121 }, (_, k) => ({ firstS: FROM + k, secondS: FROM + LATER_S + 1.07 * k }));

function pairCard(names: readonly [string, string], follow: FollowWay, filmed: boolean): PairCard {
  const firstS = spots.map((spot) => spot.firstS);
  const secondS = spots.map((spot) => spot.secondS);
  const side = (name: string, columns: RideColumns, clipId: string, startS: number, endS: number) => ({
    name,
    series: (from: number, to: number) => pairSeries(columns, from, to),
    clips: filmed ? [{ clipId, clock: { offsetS: 0, rate: 1 }, span: { startS, endS } }] : [],
  });
  const [item] = pairItems({
    title: names.join(" / "),
    follow,
    units: "metric",
    rides: [side(names[0], ride, "one", FROM - 9, TO + 9), side(names[1], ride, "two", 0, 9000)],
    pace: {
      filmS: firstS.map((s) => s - FROM),
      firstS,
      secondS: follow === "place" ? secondS : firstS.map((s) => s + LATER_S),
    },
    spots: { firstS, secondS },
    frameRate: { num: 30, den: 1 },
    why: "",
  });
  if (item?.card.kind !== "pair") throw new Error("no pair was made");
  return item.card;
}

/** A pair whose two sides have no footage, as the film's card shows it 80 s on. */
function onCards(
  name: string,
  card: PairCard,
  shape: Pick<Scene, "gallery" | "golden">,
  theme: Theme = lightInk,
  language: Language = "en",
): Scene {
  const later = paceAt(card.pace, 80);
  const from80: PairCard = { ...card, pace: { filmS: [0], firstS: [later.firstS], secondS: [later.secondS] } };
  return {
    name: `pair-${name}`,
    ...shape,
    ground: null,
    tolerance: 0,
    paint: (context, width, height) => paintCard(context, from80, { width, height }, theme, language),
  };
}

/** What is laid over the footage of two clips. */
function onFootage(name: string, card: PairCard, shape: Pick<Scene, "gallery" | "golden">): Scene {
  return {
    name: `pair-${name}`,
    ...shape,
    ground: "leaves",
    tolerance: 0,
    paint(context, width, height) {
      const painter = createPairPainter(card, { width, height }, lightInk, "en");
      const { layer, strip } = painter.layout;
      const layerOf = testCanvas(layer.width, layer.height);
      painter.paint(layerOf.context, pairAt(card, paceAt(card.pace, 80)));
      context.fillStyle = lightInk.ground;
      context.fillRect(strip.x, strip.y, strip.width, strip.height);
      context.drawImage(layerOf.canvas, layer.x, layer.y);
    },
  };
}

/** Two rides side by side and one above the other, on cards and on footage, by place and by time. */
/** The second rides without a power meter: its numbers stand without power, its road without a thread. */
function withoutPower(card: PairCard): PairCard {
  const [first, second] = card.sides;
  const { series } = second;
  const bare = { ...series, powerW: series.powerW.map(() => null), pressure: series.pressure.map(() => 0) };
  return { ...card, sides: [first, { ...second, series: bare }] };
}

export const pairScenes: readonly Scene[] = [
  onCards("cards-without-power", withoutPower(pairCard(["16 June", "24 May"], "place", false)), WIDE),
  onCards("cards", pairCard(["16 June", "24 May"], "place", false), WIDE),
  onCards("cards-upright", pairCard(["16 June", "24 May"], "place", false), UPRIGHT),
  onCards("cards-square", pairCard(["16. Juni", "24. Mai"], "time", false), SQUARE, darkInk, "de"),
  onFootage("footage", pairCard(["you", "coach"], "place", true), WIDE),
  onCards("cards-two-riders", { ...pairCard(["you", "coach"], "place", false), oneRider: false }, WIDE),
  onCards("cards-two-riders-upright", { ...pairCard(["you", "coach"], "place", false), oneRider: false }, UPRIGHT),
  onFootage("footage-upright", pairCard(["you", "coach"], "time", true), UPRIGHT),
  onFootage("long-names", pairCard(["Maximiliane Oberhuber", "Bartholomäus Unterwald"], "place", true), WIDE),
];
