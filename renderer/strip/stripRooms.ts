/** One lane of the strip, px from its top. */
export interface Lane {
  readonly top: number;
  readonly bottom: number;
}

/** Where the lanes of the strip stand. A lane without data has no height. */
export interface StripRooms {
  /** Left edge of the ride; the names of the lanes stand before it. */
  readonly left: number;
  readonly right: number;
  readonly moments: Lane;
  readonly thread: Lane;
  readonly power: Lane;
  readonly heart: Lane;
  readonly speed: Lane;
  readonly footage: Lane;
  readonly axis: Lane;
}

/** Room between the lanes' names and the ride, in heights of the letters. */
const NAMES_GAP = 0.8;

/** Height of the speed's lane in those of power and heart: it is looked at beside them. */
const SPEED_SHARE = 0.75;

/**
 * Shares the strip out among its lanes.
 *
 * @param view its size, and the width of the widest name of a lane, px
 */
export function stripRooms(
  {
    widthPx,
    heightPx,
    textPx,
    namesPx,
  }: { readonly widthPx: number; readonly heightPx: number; readonly textPx: number; readonly namesPx: number },
  has: { readonly power: boolean; readonly heart: boolean; readonly speed: boolean; readonly footage: boolean },
): StripRooms {
  const moments = textPx * 2.7;
  const footage = has.footage ? textPx * 1.35 : 0;
  const axis = textPx * 1.5;
  const rest = Math.max(0, heightPx - moments - footage - axis);
  const parts = 1.15 + (has.power ? 1 : 0) + (has.heart ? 1 : 0) + (has.speed ? SPEED_SHARE : 0);
  const thread = (rest * 1.15) / parts;
  const power = has.power ? rest / parts : 0;
  let top = 0;
  const lane = (height: number): Lane => {
    const from = Math.round(top);
    top += height;
    return { top: from, bottom: Math.round(top) };
  };
  return {
    left: Math.round(2 + namesPx + textPx * NAMES_GAP),
    right: widthPx - Math.round(textPx * 0.8),
    moments: lane(moments),
    thread: lane(thread),
    power: lane(power),
    heart: lane(has.heart ? rest / parts : 0),
    speed: lane(has.speed ? (rest * SPEED_SHARE) / parts : 0),
    footage: lane(footage),
    axis: lane(axis),
  };
}
