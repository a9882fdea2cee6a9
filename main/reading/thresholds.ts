/**
 * Every number that the reading judges by, in one place, with where it comes from.
 *
 * Sources: `trade` is common practice without a published source; `physics` was computed with main/maths/roadPower.ts;
 * `calibrated` was found by test/bench/calibration.bench.ts; `own choice` is ours, open to better evidence. Published
 * ones name their paper.
 */
export const thresholds = {
  counted: {
    /** Warm-up and cool-down that do not count when nothing else says where they are, s. Trade. */
    defaultEndS: 600,
    /** A short ride gives up at most this share at either end. Own choice. */
    defaultEndShare: 0.25,
    /** A stop longer than this ends a judged stretch, s: the heart recovers. Own choice. */
    longStopS: 300,
    /** Averaging by which power is seen to settle into the band, s. Own choice. */
    settleMeanS: 120,
    /** It has settled for good when this share of the next so many seconds stays there. Own choice. */
    settledShare: 0.7,
    settledOverS: 1200,
    /** Where settling is looked for: the first and last 45 minutes, at most a third of the ride. Own choice. */
    settleWithinS: 2700,
    /** A lap pressed by hand at both ends marks the counted part when it spans this share of the ride. Own choice. */
    lapShare: 0.5,
    /** A main part of which less than this share and less than these seconds are recorded is none. Own choice. */
    recordedShare: 0.05,
    recordedS: 60,
  },
  pressure: {
    /** Cranks count as unpressed below the larger of these. Own choice: a crank meter's zero is good to a few watts. */
    offBelowW: 20,
    offBelowShare: 0.1,
    /** And as pressed again from the larger of these: the difference keeps one break from being counted as many. */
    onFromW: 30,
    onFromShare: 0.15,
    /** Tolerance of a target given without one, W. Trade: 10 to 15 either side. */
    defaultToleranceW: 12,
    /** Pressure gone for this long is a break, s: a crank meter may hold its last value 1 to 3 s. Own choice. */
    breakS: 3,
    /** Two breaks closer than this are one, s. Own choice. */
    joinS: 2,
    /** An unexcused break of this length is a lapse, s. Own choice: 3 s breaks come 21 to 114 an hour on real rides. */
    lapseS: 10,
    /** A recorder that chooses its own steps cannot show shorter breaks, s. */
    variableBreakS: 10,
    /** A meter may go on showing its last value for so long after the cranks stand still, s. From memory. */
    heldValueS: 3,
    /** No power for so short with the cranks turning this fast is a lost sample, s and rpm. Own choice. */
    dropoutS: 2,
    dropoutCadenceRpm: 40,
    /** Gap in the data that an unbroken stretch may pass over, s. */
    bridgeS: 3,
    /** With less of what is judged known, nothing is said of pressure. Own choice. */
    knownShare: 0.05,
    /** Longest excused break that an unbroken stretch passes over, s. Own choice. */
    passOverS: 30,
    /** Uphill above, downhill below, percent. Own choice. */
    gradeClassPercent: 1,
  },
  surge: {
    /** Power over the target by this share ... Own choice. */
    overTarget: 0.25,
    /** ... for so long, s ... */
    lengthS: 5,
    /** ... is one surge with the next when they are no further apart, s ... */
    joinS: 3,
    /** ... and none so soon after a stop, s: that is pulling away. */
    afterStopS: 15,
  },
  excuse: {
    /** Standing still: below this speed for so long. */
    stopBelowMps: 1,
    stopS: 2,
    /** What a stop excuses: so long before it, and so long after the speed has passed `rollingMps`. Own choice. */
    stopBeforeS: 15,
    stopAfterS: 10,
    rollingMps: 2,
    /** Corner: heading turns this far within so long, tight or hard enough. 1.5 m/s2 is comfortable cornering (from memory). */
    cornerDeg: 40,
    cornerWithinS: 10,
    cornerRadiusM: 30,
    cornerSidewaysMps2: 1.5,
    cornerBeforeS: 5,
    cornerAfterS: 3,
    /** Braking: slowing by this much more than rolling free does, for so long. Physics: free roll 0.27 m/s2 at 36 km/h. */
    brakingBeyondRollMps2: 0.4,
    brakingS: 2,
    brakingBeforeS: 5,
    brakingAfterS: 3,
    /**
     * Steep descent: for so long, the road falls by this at least, and rolling free from the rider's own speed comes within
     * so long to the speed that the ride's own pressure gives on the level. Physics: main/maths/roadPower.ts; percent and
     * seconds: own choice.
     */
    descentPercent: -2.5,
    descentS: 5,
    descentReachS: 20,
    /**
     * Running out of one that ended no longer before the loss than this: for so long after it, while the speed is still
     * what the ride's own pressure gives on the level. Physics, as above; seconds: own choice.
     */
    runOutAfterS: 5,
    runOutS: 20,
    /** Pressure on the level where the ride has none of its own, W. Own choice. */
    levelW: 150,
    /** Walking pace: slower than this nobody is asked for pressure, m/s (6 km/h). Own choice. */
    walkingMps: 6 / 3.6,
    /** A break that slows down to this was on its way to a stop, m/s (8 km/h). Own choice. */
    nearStandMps: 8 / 3.6,
    /** And one that brakes down to this (10 km/h), by so much more than rolling free, m/s. Own choice. */
    brakedToMps: 10 / 3.6,
    brakedMps: 1,
    /** Slowing down into walking pace or a turn: by so much over so long; the pace is reached by so long after the break. Own choice. */
    slowingMps: 0.25,
    slowingOverS: 5,
    reachedWithinS: 3,
    /**
     * Creeping up to a stop with a touch of pressure on the way: so long at most, never faster again than the loss of
     * pressure ended, but for so much, m/s; the mean pressure on the way is at most this share of the ride's own. Own choice.
     */
    approachS: 30,
    approachGainMps: 0.5,
    approachTouchShare: 0.5,
    /**
     * Held up: braked down to this share of the speed; for so long after, while the speed stays within so much of the
     * lowest, m/s, it is what made the rider brake that sets the pace. Own choice.
     */
    heldUpShare: 0.6,
    heldUpS: 30,
    heldUpGainMps: 1,
    /**
     * A bend that is no corner, yet a reason to doubt: it turns this far, this hard. Measured on the 5 real rides with
     * power and bends at hand: from 1 m/s2 to the side on, level road and 15 km/h or more, the share of seconds without
     * pressure is 1.5 to 12 times that of the straight (18 to 40 % on the longest).
     */
    bendDeg: 30,
    bendSidewaysMps2: 1,
    /**
     * Slow passage: on a road that does not rise, slower than this share of the ride's usual speed on the level over so
     * long either side of the loss, s. Measured: no more than 3 % of most real rides at hand, 16 % of one through a town.
     */
    slowPassageShare: 0.7,
    slowPassageS: 30,
    /** A turn this wide is one at any radius: a hairpin or a U-turn on a wide road, degrees. Own choice. */
    wideTurnDeg: 90,
    /** Slowed: speed falls by this much more than rolling free explains, m/s. Own choice. */
    slowedMps: 2,
    /** What is left of a break besides its lapses has one reason when excuses cover this share of it. Own choice. */
    coveredShare: 0.5,
    /**
     * Carried: without pressure, less than the rest of this share of air and rolling shows in height and speed lost. Own
     * choice: 3 m/s of wind behind take 46 % at 29 km/h, a wheel ahead a quarter (Martin et al.'s equation).
     */
    carriedShare: 0.5,
    /** Carried by the road's fall, where that gives so much of air and rolling: a grade is good to about 0.2 %. Own choice. */
    carriedByFallShare: 0.9,
    /** Carried as well where so much more speed than rolling free gives comes within so long or less, m/s and s. Own choice. */
    gainedMps: 1,
    gainedOverS: 5,
    /** Seconds over which the speed at either end of such a span is taken. Own choice. */
    carriedEndsS: 3,
    /** Share of a break's seconds that must be known before its want of an excuse can be told. Own choice. */
    knownShare: 0.8,
  },
  drift: {
    /** First reading: so long after the stretch starts, over so long, s. Trade: 10 to 15 minutes in. */
    firstFromS: 600,
    readingS: 300,
    /** Latest start of a first reading that was moved on, s after the stretch's start. Own choice. */
    firstLatestS: 1800,
    /** How far a last reading may be moved back, s. Own choice. */
    lastMoveS: 600,
    /** Valid seconds that a reading needs. */
    readingValidS: 240,
    /** Settled: heart rate changes less than this, beats a minute. */
    settledSlopePerMin: 0.5,
    /** A stop this long disturbs a reading when it lies in it or so long before it, s. Own choice. */
    disturbingStopS: 30,
    disturbedForS: 180,
    /** Missing heart seconds, as a share of the counted part, above which no drift is given. Own choice. */
    missingShare: 0.15,
    /** Noise of a 60 s block where the ride itself cannot show it: SD, beats, and correlation. Lamberts et al, JSCR 2004;18:641. */
    noiseBeats: 1.5,
    noiseCorrelation: 0.6,
    /** Below this many beats one ride can show no drift: the uncertainty of the difference of two readings. */
    shownBeats: 3,
    /** Rise and drift that differ by less are told apart by rounding as much as by power, beats. Own choice. */
    roundingBeats: 2,
    /** Where two readings differ by chance by more than this, a drift of usual size would not show, and nothing counts as held. Own choice. */
    blindBeats: 10,
    /** Heart's lag behind power, s, and beats a watt, where the ride itself cannot show them. From memory: 30-70 s, 0.2-0.5. */
    lagS: 40,
    beatsPerWatt: 0.25,
    /** Error of that usual figure, beats a watt: most hearts lie within twice as much of it. From memory, as above; calibrated. */
    beatsPerWattError: 0.1,
    /** How far a heart wanders by itself over a quarter of an hour, which the minutes of one ride hardly show, beats. Calibrated. */
    wanderBeats: 0.6,
    /** Like power, for the panel: within so many watts of the first reading's. Own choice. */
    likePowerW: 12,
    likePowerS: 150,
  },
  onset: {
    /** Seconds after the stretch's start that are left out: the heart settles. Own choice. */
    settleS: 300,
    /** Whole minutes that an answer needs. Calibrated. */
    leastBlocks: 45,
    /** Lags of the heart behind power that are tried, s; within 2 % of each other they can't be told apart. */
    lagsS: [10, 20, 30, 40, 50, 60, 70, 80, 90],
    flatLag: 1.02,
    /** Power's effect is taken as the usual one where its error is larger, or it lies outside these, beats a watt. */
    powerErrorBpmPerW: 0.1,
    beatsPerWattLow: 0.05,
    beatsPerWattHigh: 0.8,
    /** What a hinge must gain over no drift, in variances. Calibrated: less than 1 drift in 400 where there is none (5 of 3000 at 75 min, 1 of 2400 at 2 h). */
    gainOverNone: 14,
    /** How likely it must be that the rise began inside, not at the start. Calibrated. */
    insideShare: 0.65,
    /** And how much likelier it must make the blocks than no rise does, natural log. Calibrated: quarters what a short ride that rose all along claims. */
    insideOverNone: 2.5,
    /** Less likely than this: it rose from the start. In between the start is unclear. Own choice. */
    startBelowShare: 0.5,
    /** Share of the weight inside the interval that decides on a claim, and inside the one that is printed. Calibrated. */
    intervalShare: 0.92,
    printedShare: 0.97,
    /** And in stretches of more than so many minutes, in which a heart wanders further. Calibrated. */
    longStretchMin: 240,
    longIntervalShare: 0.95,
    longPrintedShare: 0.98,
    /** Widest interval with which an onset is claimed, minutes: of the weight that decides. */
    widestMin: 30,
    /** What is thought likely before looking. A slow rise before the onset is normal: Teso et al, MSSE 2022;54:655. */
    priors: {
      creepMean: 0.01,
      creepSd: 0.02,
      slopeSd: 0.15,
      /** Quick noise alone, or with a slow part that wanders over a quarter of an hour. */
      noises: [
        ...[0, 0.2, 0.4, 0.55, 0.7, 0.8, 0.9, 0.95].map((quickRho) => ({ quickRho, slowRho: 0.935, slowShare: 0 })),
        ...[0, 0.2, 0.4, 0.55, 0.7, 0.8].map((quickRho) => ({ quickRho, slowRho: 0.935, slowShare: 0.4 })),
      ],
    },
  },
  /** From where on the target, not the ride, is in doubt. */
  doubt: {
    /**
     * Mean power so much below or above what was asked, as shares. Own choice: meters differ by about 5 % (Maier et al.,
     * Int J Sports Med 2017;38:456), and a rider who is carried away on an easy ride is to be told so.
     */
    belowShare: 0.3,
    aboveShare: 0.4,
    /** Mean heart rate further outside the range than so many beats. Own choice: heat, a bad night and drift explain less. */
    beats: 15,
    /** Seconds that must be known. Own choice. */
    leastS: 600,
  },
  moment: {
    /** A run of breaks: so many within so long, none excused. */
    runBreaks: 3,
    runWithinS: 300,
    /** Rise: height and grade; break after its top: within so long, of so long. Told from so many rises on. */
    riseM: 8,
    risePercent: 2,
    overTopWithinS: 60,
    overTopBreakS: 5,
    overTopLeast: 3,
    /** Odd heart: a marked spike of so many beats. */
    spikeBeats: 15,
    /** A first reading so far from the median of so many earlier rides at like power. */
    unusualBeats: 12,
    unusualRides: 5,
    /** Steady stretch: so long, with so much of it in the band. */
    steadyS: 600,
    steadyShare: 0.7,
    /** Turn: heading changes so far within so long at such a radius. */
    turnDeg: 120,
    turnWithinS: 15,
    turnRadiusM: 15,
    /** Cadence block: mean over so long outside the ride's mean by so much, for so long. */
    cadenceMeanS: 30,
    cadenceOffRpm: 15,
    cadenceS: 120,
    /** Moments of one kind closer than this are shown as one, s. Own choice. */
    mergeS: 15,
    /** A mark pressed by hand shows so much before and after, s. Own choice. */
    markBeforeS: 20,
    markAfterS: 10,
  },
  /** Planned efforts that stayed below the plan. Own choices, those of the road as where a break may be asked about. */
  effort: {
    /** A shorter one can't be judged by a mean over 30 s; the mean reaches so far over its ends, s. */
    leastEffortS: 90,
    meanEdgeS: 15,
    /** Done from this share of it on. */
    doneShare: 0.8,
    /** Shown from a stretch of so long on; stretches closer than this are one, s. */
    leastStretchS: 30,
    bridgeS: 5,
    /** So much of what is missing ridden at another time, and it was not missed. */
    elsewhereShare: 0.5,
    /** A stop or traffic, m/s, and so far around it, s. */
    slowMps: 3,
    slowAroundS: 20,
    descentPercent: -1,
    fastestMps: 12,
    turnDeg: 30,
    turnWithinS: 10,
  },
  base: {
    /** The last row of the table by the hour is at least so long, s. Own choice. */
    leastHourS: 1200,
    /** Classes of unbroken duration begin at, s. Own choice; the method is Mathiassen and Winkel, Ergonomics 1991;34:1455. */
    exposureS: [0, 10, 30, 60, 180, 600],
    /** Share of an hour that must be known before it is offered as a start for a target. Own choice. */
    knownShare: 0.95,
    /** A part between long stops gets a reading of its own from this length, s. Own choice. */
    partS: 2400,
    /** Power of the halves or hours this far apart is a fade, as a share. Own choice. */
    fadeShare: 0.05,
    /** Riding on after the band was left at this share of it is a fade, no cool-down. Own choice. */
    rideOnShare: 0.75,
  },
  target: {
    /** Drift-free time asked for, as multiples of the event and with caps, s. Trade. */
    leastFactor: 1.2,
    aimFactor: 1.25,
    leastCapS: 4 * 3600,
    aimCapS: 5 * 3600,
    /** What was held is told of rides with at least this share in the band. Common practice, no source: most of a steady ride is. */
    heldBandShare: 0.5,
    /** And whose power over the last reading lies within this share of that over the first. Common practice, no source. */
    heldStepShare: 0.1,
    /** Acceptable drift at the same power, beats. Trade: no source. */
    driftLimitBeats: 5,
    /** A target older than this is said to be old, days. Trade. */
    oldDays: 56,
  },
} as const;
