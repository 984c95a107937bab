/** Client: makes a chart's view when it comes near the screen, and keeps its width and its stretch of time. */
export const SCRIPT_CHARTS = `
class Figure {
  constructor(chart, element) {
    this.chart = chart;
    this.element = element;
    this.plot = element.querySelector(".plot");
    this.home = chart.time ? { start: paramValue(chart, "from"), end: paramValue(chart, "to") } : null;
    this.shown = this.home;
    this.near = false;
  }

  /** Draws for the first time. A chart that cannot be drawn says so and leaves the others alone. */
  draw() {
    if (this.view || this.failed) return;
    try {
      this.make();
    } catch (fault) {
      this.failed = true;
      this.view = undefined;
      this.plot.style.minHeight = "0";
      this.plot.querySelector(".drawn").textContent = "This chart could not be drawn; its words stand below.";
      console.error("chart " + this.chart.id, fault);
    }
  }

  make() {
    const compiled = vegaLite.compile(this.chart.spec).spec;
    const spec = { ...compiled, data: compiled.data.map((source) => this.filled(source)) };
    const runtime = vega.parse(spec, {}, { ast: true });
    this.view = new vega.View(runtime, {
      expr: vegaInterpreter,
      renderer: "svg",
      container: this.plot.querySelector(".drawn"),
      hover: false,
      logLevel: vega.Error,
    });
    this.plot.style.minHeight = "0";
    this.view.addEventListener("click", (event, item) => item?.datum?.finding && choose(item.datum.finding));
    this.update();
  }

  filled(source) {
    const number = this.chart.data[source.name];
    return number === undefined ? source : { ...source, values: rowsOf(packed.datasets[number]) };
  }

  /** Brings width and stretch of a drawn chart up to date. */
  update() {
    if (!this.view) return;
    this.stale = this.plot.clientWidth === 0;
    if (this.stale) return;
    if (this.chart.wide) this.view.width(printing ? this.paperWidth() : this.plot.clientWidth);
    if (this.shown) this.view.signal("from", this.shown.start).signal("to", this.shown.end);
    this.view.run();
    if (!this.shown) return;
    this.plot.dataset.from = this.shown.start;
    this.plot.dataset.to = this.shown.end;
  }

  /** px on paper: beside text or beside another chart about half a page, else the whole width. */
  paperWidth() {
    return this.element.closest(".seen, .pair") ? 390 : 690;
  }

  show(window) {
    if (!this.home) return;
    this.shown = window || this.home;
    hideCursor(this);
    if (this.near) this.update(); else this.stale = true;
  }

  comesNear(near) {
    this.near = near;
    if (!near) return;
    if (!this.view) this.draw();
    else if (this.stale) this.update();
  }

  /** Left edge and width of the drawing area, in pixels of the plot. */
  frame() {
    const area = this.plot.querySelector(".role-frame > g > path.background");
    const box = area.getBoundingClientRect();
    return { left: box.left - this.plot.getBoundingClientRect().left, width: box.width };
  }
}

let printing = false;

function paramValue(chart, name) {
  return chart.spec.params.find((param) => param.name === name).value;
}

const figures = packed.charts
  .map((chart) => ({ chart, element: document.getElementById("chart-" + chart.id) }))
  .filter(({ element }) => element)
  .map(({ chart, element }) => new Figure(chart, element));
const figureOf = new Map(figures.map((figure) => [figure.plot, figure]));

const watcher = new IntersectionObserver(
  (entries) => entries.forEach((entry) => figureOf.get(entry.target).comesNear(entry.isIntersecting)),
  { rootMargin: "500px 0px" },
);
let width = innerWidth;
figures.forEach((figure) => watcher.observe(figure.plot));
addEventListener("resize", () => {
  if (innerWidth === width) return;
  width = innerWidth;
  figures.forEach((figure) => { if (figure.near) figure.update(); else figure.stale = true; });
});

/** Paper has another width than the screen, and a chart is drawn anew for it rather than shrunk past reading. */
function print(begins) {
  if (printing === begins) return;
  printing = begins;
  figures.forEach((figure) => { figure.draw(); figure.update(); });
}
addEventListener("beforeprint", () => print(true));
addEventListener("afterprint", () => print(false));
matchMedia("print").addEventListener("change", (media) => print(media.matches));

/** Charts further down are drawn in quiet moments, so that nobody waits for them later. */
function drawNext() {
  const next = figures.find((figure) => !figure.view && !figure.failed);
  if (!next) { document.documentElement.dataset.drawn = "all"; return; }
  next.draw();
  quietly(drawNext);
}
const quietly = (work) => (window.requestIdleCallback ? requestIdleCallback(work, { timeout: 800 }) : setTimeout(work, 60));
addEventListener("load", () => quietly(drawNext));
`;
