/**
 * Neutral inks alone: the program's two colours say how the pedals were pressed, and no page draws that. They keep 4.5:1
 * for text (WCAG 2.2, 1.4.3).
 */
const INKS = `:root{color-scheme:light;--ink:#10161a;--quiet:#4b5963;--ground:#faf8f3;--band:#c9d2d5;
--face:"Barlow Semi Condensed",system-ui,"Segoe UI",Roboto,Helvetica,Arial,sans-serif}
`;
const DRAWING = `svg text{font:500 13px var(--face);fill:var(--ink)}
svg .strong{font-weight:600;paint-order:stroke;stroke:var(--ground);stroke-width:3px}
svg .grid{stroke:#c9ced0;stroke-width:1;fill:none}
svg .axis,svg .tick{stroke:var(--ink);stroke-width:1;fill:none}
svg .main{stroke:var(--ink);stroke-width:4;fill:none;stroke-linecap:round}
svg .band{fill:var(--band)}
svg .span{fill:var(--ink);fill-opacity:.16}
svg .power{stroke:var(--ink);stroke-width:1.4;fill:none;stroke-linejoin:round}
svg .heart{stroke:var(--quiet);stroke-width:2.2;fill:none;stroke-linejoin:round}
svg .ground{fill:#b9c2c5}
svg .trend{stroke:var(--ink);stroke-width:2;fill:none}
svg .dot{fill:var(--ink)}
svg .asked{fill:#8d989e}
svg .ridden{fill:var(--ink)}
svg .maybe{fill:#fff;stroke:var(--ink);stroke-width:1.5;stroke-dasharray:3 3}
`;

/** Style of a drawing that stands alone, as a picture. */
export const drawingStyle = INKS + DRAWING;

/** Style of the written pages: a phone first, then wide screens, then paper. */
export const pageStyle = `
${INKS}*{box-sizing:border-box}
body{margin:0;background:var(--ground);color:var(--ink);font:500 18px/1.45 var(--face);-webkit-text-size-adjust:100%}
main,header,footer{max-width:42rem;margin:0 auto;padding:0 1rem}
header{padding-top:1.5rem}
h1{font-size:1.9rem;line-height:1.15;margin:0 0 .25rem;font-weight:600}
h2{font-size:1.35rem;line-height:1.2;margin:2.25rem 0 .75rem;padding-top:.75rem;border-top:3px solid var(--ink);font-weight:600}
h3{font-size:1.1rem;line-height:1.25;margin:1.5rem 0 .35rem;font-weight:600}
p{margin:.35rem 0 .75rem}
.quiet,footer{color:var(--quiet);font-size:.95rem}
.three{margin:0;padding:0;list-style:none}
.three li{margin:0 0 1rem;padding-left:1rem;border-left:5px solid var(--ink)}
.three .gap{border-left-style:dotted}
.three b{display:block;font-size:.95rem;color:var(--quiet);font-weight:600}
.three span{font-size:1.2rem;line-height:1.35}
a{color:inherit}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}
th,td{text-align:left;vertical-align:top;padding:.4rem .5rem .4rem 0;border-bottom:1px solid #c9ced0}
thead th,thead td{border-bottom-color:var(--ink)}
thead th{font-size:.95rem;color:var(--quiet);font-weight:600}
tbody th{font-weight:500}
th:first-child,thead td{width:44%}
td{font-weight:600}
figure{margin:1rem 0}
figure svg,figure img{display:block;width:100%;height:auto}
figcaption{margin-top:.5rem}
${DRAWING}.number{display:inline-block;min-width:1.5em;margin-right:.4em;text-align:center;border:2px solid var(--ink);border-radius:50%;line-height:1.35}
.note{border-left:5px double var(--ink);padding-left:1rem}
li{margin:.3rem 0}
footer{padding-top:1.5rem;padding-bottom:2.5rem}
.wide{overflow-x:auto}
.wide th:first-child{width:auto}
.wide th,.wide td{padding-right:.3rem;font-size:.92rem}
.roomy{max-width:64rem}
.roomy svg{max-width:42rem}
.log{max-width:84rem}
.log p,.log ul{max-width:42rem}
.plots{display:grid;gap:0 2.5rem;grid-template-columns:repeat(auto-fit,minmax(min(100%,28rem),1fr));align-items:start}
.figures td:last-child{min-width:16rem}
.ride{border-top:3px solid var(--ink);margin-top:2rem;padding-top:.5rem}
.ride h2{border:0;margin:.5rem 0 .25rem;padding:0}
.ride .quiet{font-weight:500}
.ride .three li{margin-bottom:.5rem}
.seen{width:1.3rem;height:1.3rem;vertical-align:-.2rem;margin:0 .4rem 0 0}
.seen:checked~.rest{display:none}
.look{border:2px solid var(--ink);padding:.5rem .75rem;margin:.5rem 0 .75rem}
.look ul{margin:.2rem 0 0;padding-left:1.2rem}
.pair{display:grid;gap:.75rem;grid-template-columns:repeat(auto-fill,minmax(15rem,1fr));align-items:start;margin:.75rem 0}
.pair figure{margin:0}
video{display:block;width:100%;max-height:60vh;background:#000;position:sticky;top:0;z-index:1}
.touch{position:relative}
#chart{position:absolute;inset:0;padding:0;border:0;background:none;cursor:pointer}
#needle{display:none;position:absolute;top:0;bottom:0;width:2px;margin-left:-1px;background:var(--ink);pointer-events:none}
.parts{margin:0;padding:0;list-style:none}
.goes{display:block;width:100%;padding:.45rem 0;border:0;background:none;color:inherit;font:inherit;text-align:left;cursor:pointer}
.parts .goes:not([data-part]){padding-left:1.3rem}
.goes .at{color:var(--quiet);font-variant-numeric:tabular-nums;margin-right:.4rem}
.goes[aria-current]{font-weight:600;box-shadow:-8px 0 0 var(--ground),-12px 0 0 var(--ink)}
.three .goes .at{display:none}
summary{cursor:pointer;padding:.4rem 0}
.copy{font:inherit;white-space:pre-wrap;overflow-wrap:anywhere;margin:.25rem 0;padding:.75rem;background:#fff;border:1px solid #c9ced0;
-webkit-user-select:all;user-select:all}
@media print{
@page{size:A4;margin:16mm}
body{background:#fff;font-size:10pt;line-height:1.35}
main,header,footer{max-width:none;padding:0}
h1{font-size:18pt}h2{font-size:12.5pt;margin:9pt 0 4pt;padding-top:4pt}h3{font-size:11pt;margin:4pt 0 2pt}
header{padding-top:0}footer{padding:6pt 0 0}p{margin:2pt 0 4pt}figure{margin:3pt 0}figcaption{margin-top:2pt}
.three li{margin-bottom:4pt}.three span{font-size:11.5pt}th,td{padding:2.5pt 6pt 2.5pt 0}li{margin:1.5pt 0}
figure,tr,li,h2,h3,.three,.whole,.told,.ending{break-inside:avoid}h2,h3{break-after:avoid}
figure svg{max-width:150mm}figure img{max-height:62mm;width:auto;max-width:100%}
.beside{display:grid;grid-template-columns:1fr 1fr;column-gap:8mm;align-items:start}
.tiles{display:grid;grid-template-columns:1fr 1fr;column-gap:8mm;row-gap:3mm}.tiles.many{grid-template-columns:1fr 1fr 1fr;column-gap:5mm}
.ending{columns:2;column-gap:8mm}.ending section{break-inside:avoid-column}.ending section:last-child{break-inside:auto}
.ending.alone{columns:1}
}
`;
