/** The idea of the whole, drawn once: a line over a road, firm where pressure holds, broken where it was gone, doubled where it was too much. */
export function StartThread() {
  return (
    <svg className="start-thread" viewBox="0 40 1200 120" preserveAspectRatio="none" aria-hidden="true">
      <g fill="none" strokeLinecap="round" vectorEffect="non-scaling-stroke">
        <path
          d="M0 150 C 90 148, 140 132, 220 128 S 330 118, 400 92"
          stroke="var(--ink)"
          strokeWidth="5"
          vectorEffect="non-scaling-stroke"
        />
        <path
          d="M400 92 C 440 76, 480 58, 520 54"
          stroke="var(--above)"
          strokeWidth="9"
          vectorEffect="non-scaling-stroke"
        />
        <path
          d="M400 92 C 440 76, 480 58, 520 54"
          stroke="var(--ground)"
          strokeWidth="3"
          vectorEffect="non-scaling-stroke"
        />
        <path
          d="M610 82 C 660 104, 700 118, 780 118 S 900 96, 960 88"
          stroke="var(--ink)"
          strokeWidth="5"
          vectorEffect="non-scaling-stroke"
        />
        <path
          d="M960 88 C 1000 82, 1040 96, 1070 104"
          stroke="var(--ink)"
          strokeWidth="5"
          strokeDasharray="0.1 11"
          vectorEffect="non-scaling-stroke"
        />
        <path
          d="M1070 104 C 1110 114, 1150 112, 1200 104"
          stroke="var(--ink)"
          strokeWidth="2"
          vectorEffect="non-scaling-stroke"
        />
      </g>
    </svg>
  );
}
