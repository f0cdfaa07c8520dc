import { CHART_FONT } from '../charts/chart-config.ts';
import { type ChartColours, darkColours, lightColours } from '../charts/chart-colours.ts';
import { keyMarkStyles } from './chart-key.ts';

const variables = (colours: ChartColours) =>
  Object.entries(colours)
    .map(([name, colour]) => `--${name}:${colour}`)
    .join(';');

/** The style sheet of all readers' pages: screen light and dark, phone, paper. */
export const pageStyles = `
:root{${variables(lightColours)};--wash:#f1f3f4;color-scheme:light}
@media screen and (prefers-color-scheme:dark){:root{${variables(darkColours)};--wash:#1e2327;color-scheme:dark}}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;scroll-padding-top:1rem}
body{margin:0;background:var(--paper);color:var(--ink);font:1rem/1.5 ${CHART_FONT};overflow-wrap:break-word}
.page{max-width:66rem;margin:0 auto;padding:2.5rem 1.5rem 4rem}
h1{font-size:2rem;line-height:1.2;font-weight:650;letter-spacing:-.015em;margin:0 0 .35rem}
h2{font-size:1.35rem;line-height:1.3;font-weight:650;letter-spacing:-.01em;margin:3.25rem 0 .4rem}
h3{font-size:1.08rem;line-height:1.35;font-weight:650;margin:0}
h4{font-size:1rem;font-weight:600;margin:0}
p{margin:.4rem 0;max-width:50rem}
a{color:var(--accent);text-decoration-thickness:1px;text-underline-offset:.15em}
a:hover{text-decoration-thickness:2px}
:focus-visible{outline:2px solid var(--accent);outline-offset:2px;border-radius:2px}
.lead{color:var(--muted);margin:0}
.quiet{color:var(--muted);font-size:.9rem}
.quiet strong{font-weight:600;white-space:nowrap}
.nav{margin:1.1rem 0 0;padding:.7rem 0;border-block:1px solid var(--rule);font-size:.92rem}
.nav ul{list-style:none;display:flex;flex-wrap:wrap;gap:.3rem 1.4rem;margin:0;padding:0}
.plain{list-style:none;margin:1rem 0 0;padding:0}
.todo>li{display:grid;grid-template-columns:7rem minmax(0,1fr);gap:.15rem 1rem;padding:.8rem 0;border-top:1px solid var(--rule)}
.todo>li:last-child{border-bottom:1px solid var(--rule)}
.todo p{margin:.1rem 0}
.todo .job{font-weight:600}
.tag{display:inline-flex;align-items:center;gap:.4em;white-space:nowrap;font-size:.9rem;font-weight:600}
.tag svg{width:.95em;height:.95em;flex:none}
.tag.fail{color:var(--fail)}.tag.suspect{color:var(--suspect)}.tag.pass{color:var(--pass)}
.tag.not-evaluated,.tag.missing{color:var(--muted)}
table{border-collapse:collapse;font-size:.92rem;font-variant-numeric:tabular-nums;width:100%;margin:.9rem 0 0}
caption{text-align:left;color:var(--muted);padding-bottom:.4rem}
th,td{padding:.42rem .6rem;border-top:1px solid var(--rule);text-align:right;vertical-align:baseline}
thead td{border-top:0}
thead th{border-top:0;color:var(--muted);font-weight:500;vertical-align:bottom}
tbody th{font-weight:400;text-align:left}
th:first-child,td:first-child{text-align:left;padding-left:0}
th:last-child,td:last-child{padding-right:0}
tbody tr:last-child>*{border-bottom:1px solid var(--rule)}
td.text,th.text{text-align:left}
details+h3,.scroll+h3,figure+h3,.pair+h3,p+h3{margin-top:1.8rem}
tr.total>*{font-weight:600}
.zero{color:var(--muted)}
.bar{display:block;width:100%;min-width:7rem;height:.6rem;margin-top:.35rem}
.bar .fail{fill:var(--fail)}.bar .suspect{fill:var(--suspect);opacity:.75}.bar .pass{fill:var(--pass);opacity:.4}
.bar .not-evaluated{fill:var(--muted);opacity:.28}.bar .missing{fill:none;stroke:var(--muted);stroke-width:1;vector-effect:non-scaling-stroke;stroke-dasharray:2 2;opacity:.7}
.scroll{overflow-x:auto;max-width:100%}
.scroll th,.scroll td{white-space:nowrap}
.scroll td.text{white-space:normal;min-width:8rem}
@media (min-width:48rem){.figures thead th{white-space:normal;vertical-align:bottom}.figures tbody th{white-space:normal;min-width:6.2rem}}
.scroll .wrapped th,.scroll .wrapped .range{white-space:normal}.wrapped th,.wrapped td{padding-right:0}
figure{margin:0;min-width:0}
figcaption{font-weight:600;font-size:.95rem}
figcaption .quiet{font-weight:400;display:block}
.chart{width:100%;min-width:0;overflow:hidden}
.chart svg{display:block;max-width:100%}
.multiples{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,22rem),1fr));gap:1.6rem 2rem;margin-top:1.2rem}
.narrow{max-width:46rem;margin-top:1rem}
.pair{display:grid;grid-template-columns:minmax(0,1.7fr) minmax(0,1fr);gap:1rem 2rem;margin-top:1.2rem}
.second-wide{grid-template-columns:minmax(0,1fr) minmax(0,1.7fr)}
.even{grid-template-columns:minmax(0,1fr) minmax(0,1fr)}
.pair figure:only-child,.even figure:first-child:nth-last-child(3){grid-column:1/-1}
details{margin-top:.8rem;font-size:.92rem}
summary{cursor:pointer;color:var(--accent);width:fit-content;padding:.15rem 0}
code{font:.9em ui-monospace,"DejaVu Sans Mono",Consolas,monospace}
pre{overflow-x:auto;max-width:100%;margin:.6rem 0;padding:.7rem .9rem;background:var(--wash);border:1px solid var(--rule);border-radius:4px;font-size:.88rem;line-height:1.45}
.notebook .code{margin:.5rem 0 1.4rem;font-size:.82rem}.notebook .code summary{color:var(--muted)}
.notebook figure{margin-top:1.4rem}.notebook li{max-width:50rem;margin:.3rem 0}
.notebook h2{margin-top:2.4rem}.notebook .figures+p,.notebook figure+p{margin-top:.9rem}
.topic h3{margin:1.3rem 0 .2rem}.topic>.narrow+h3{margin-top:1.6rem}
.findings{list-style:none;margin:.9rem 0 0;padding:0}
.findings>li{display:grid;grid-template-columns:7rem minmax(0,1fr);gap:0 1rem;padding:.55rem 0}
.findings p{margin:.1rem 0}
.others{margin:.4rem 0 0;padding:0;list-style:none}
.others>li{display:grid;grid-template-columns:8.5rem minmax(0,1fr);gap:0 1rem;padding:.3rem 0;border-top:1px solid var(--rule)}
.others p{margin:0}
.plain-list{list-style:none;margin:0;padding:0}
.plain-list li{margin:0 0 .35rem}
.story{margin:.7rem 0 0}
.key{list-style:none;margin:.3rem 0 0;padding:0;display:flex;flex-wrap:wrap;gap:.1rem 1.1rem;color:var(--muted);font-size:.82rem;line-height:1.35}
.key li{display:flex;gap:.45em;align-items:baseline;min-width:0}.key span{min-width:0}
.key svg{width:1.7em;height:1em;flex:none;align-self:center}
${keyMarkStyles}
[data-units=ip] [data-u=si],[data-units=si] [data-u=ip]{display:none}
.needs-script,.units{display:none}
[data-ready] .needs-script,[data-ready] .units{display:flex}
.top{max-width:66rem;margin:0 auto;padding:.8rem 1.5rem 0;display:flex;flex-wrap:wrap;gap:.4rem 2rem;justify-content:space-between;align-items:baseline;font-size:.92rem}
.top+.page{padding-top:1.6rem}
.places{list-style:none;display:flex;flex-wrap:wrap;gap:.2rem 1.3rem;margin:0;padding:0}
.places a{display:inline-block;padding:.2rem 0;text-decoration:none}
.places a:hover{text-decoration:underline}
.places [aria-current]{color:var(--ink);font-weight:600;border-bottom:2px solid var(--ink)}
.units{border:0;margin:0 0 0 auto;padding:0;gap:.2rem 1rem;flex-wrap:wrap;align-items:baseline}
.units legend{float:left;padding:0;margin:0 1rem 0 0;color:var(--muted)}
.units label{display:flex;gap:.35rem;align-items:baseline;padding:.2rem 0}
.filters{flex-wrap:wrap;gap:.5rem 1rem;align-items:end;background:var(--wash);border:1px solid var(--rule);border-radius:4px;padding:.7rem 1rem .8rem;margin-top:3.25rem;font-size:.92rem}
.filters-title{flex-basis:100%;max-width:none;margin:0;font-weight:600}
.filters label{display:flex;flex-direction:column;gap:.1rem;color:var(--muted);flex:1 1 9rem;min-width:0;max-width:16rem}
.filters select,.filters button{font:inherit;color:var(--ink);background:var(--paper);border:1px solid var(--muted);border-radius:4px;padding:.35rem .5rem;min-width:0;width:100%}
.filters button{width:auto;cursor:pointer}
.filters .quiet{flex-basis:100%;margin:0}
.filters-end{display:flex;gap:.8rem;align-items:baseline;flex:1 1 14rem}
.doors{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,17rem),1fr));gap:1rem 2rem;margin-top:3.25rem}
.door{border-top:2px solid var(--ink);padding-top:.6rem}
.door h2{margin:0}.door .notes{margin:.5rem 0 0}
.call{border-left:4px solid var(--fail);padding-left:1.1rem;margin-top:.6rem}
.call p:first-child{font-size:1.08rem}
#call{font-size:1.6rem;margin-top:1.6rem}
.columns{columns:17rem;padding-left:1.2rem}
.columns li{break-inside:avoid;margin:0 0 .3rem}
.todo h3{margin-bottom:.1rem}
.caution{border:1px solid var(--rule);border-left:4px solid var(--ink);padding:.4rem 1.2rem .8rem;margin-top:3.25rem;background:var(--wash)}
.caution h2{margin-top:.6rem}
.notes{padding-left:1.2rem;max-width:50rem}
.notes li{margin:.3rem 0}
.footer{margin-top:3rem;border-top:1px solid var(--rule);padding-top:.8rem}
@media screen and (max-width:40rem){
.page{padding:1.5rem 1rem 3rem}
.top{padding:.7rem 1rem 0}
.filters label{flex-basis:40%}
h1{font-size:1.6rem}h2{margin-top:2.5rem}
.nav a{display:inline-block;padding:.2rem 0}
.todo>li,.findings>li,.others>li{grid-template-columns:minmax(0,1fr)}
.pair,.second-wide,.even{grid-template-columns:minmax(0,1fr)}
.stack thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.stack,.stack tbody,.stack caption{display:block}
.stack tr{display:grid;grid-template-columns:1fr 1.2fr 1fr 1.7fr 1fr;gap:0 .4rem;border-top:1px solid var(--rule);padding:.55rem 0}
.stack th,.stack td,.stack tbody tr:last-child>*{border:0;padding:.1rem 0;text-align:left}
.stack th,.stack .wide{grid-column:1/-1}
.stack td[data-label]::before{content:attr(data-label);display:block;color:var(--muted);font-size:.74rem;line-height:1.3}
.bar{margin:.1rem 0 .3rem}
}
@media print{
@page{margin:16mm 14mm}
html{font-size:10pt}
.page{max-width:none;padding:0}
.nav,summary,.top,.notebook .code,[data-ready] .filters{display:none}
h2{margin-top:1.6rem}
h2,h3,h4,figcaption,caption,thead{break-after:avoid}
figure,.todo>li,.findings>li,tr,.caution{break-inside:avoid}
.chart svg{max-width:100%;height:auto}
.chart[data-chart]{min-height:0}
.multiples{grid-template-columns:1fr 1fr}
.pair{grid-template-columns:minmax(0,1.25fr) minmax(0,1fr)}.second-wide{grid-template-columns:minmax(0,1fr) minmax(0,1.25fr)}.even{grid-template-columns:minmax(0,1fr) minmax(0,1fr)}
a{color:inherit;text-decoration:none}
.caution{background:none}
.scroll{overflow:visible}.scroll.figures table{font-size:.74rem}.scroll.figures th,.scroll.figures td{padding:.3rem .25rem;white-space:normal;min-width:0}.scroll td.text{min-width:0}
}
`;
