/** Client: one stretch of time for all charts, with a way back, and findings that set it. */
export const SCRIPT_WINDOW = `
const bar = document.querySelector(".bar");
const status = bar.querySelector("output");
const past = [];
let current = { window: null, finding: null };

function seconds(value) {
  return value.toFixed(flightLength < 10 ? 2 : 1) + " s";
}

function go(next, remember = true) {
  if (remember) past.push(current);
  current = next;
  figures.forEach((figure) => figure.show(next.window));
  document.querySelectorAll("[data-finding]").forEach((element) => {
    const chosen = element.dataset.finding === next.finding;
    if (element.tagName === "BUTTON") element.setAttribute("aria-pressed", String(chosen));
    else element.classList.toggle("chosen", chosen);
  });
  const name = next.finding ? packed.findings[next.finding].name + ": " : "";
  status.textContent = next.window
    ? name + "all charts show " + seconds(next.window.start) + " to " + seconds(next.window.end)
    : "each chart shows its own stretch";
  bar.querySelector("[data-go=back]").disabled = past.length === 0;
  bar.querySelector("[data-go=home]").disabled = next.window === null;
}

/** A window inside the flight, at least a twentieth of a second long. */
function within(start, end) {
  const length = Math.min(flightLength, Math.max(0.05, end - start));
  const from = Math.min(Math.max(packed.whole.start, start), packed.whole.end - length);
  return { start: from, end: from + length };
}

function zoom(window, factor, at = (window.start + window.end) / 2) {
  return within(at - (at - window.start) * factor, at + (window.end - at) * factor);
}

const shown = () => current.window || packed.whole;
const steps = {
  back: () => past.length > 0 && go(past.pop(), false),
  home: () => current.window && go({ window: null, finding: null }),
  closer: () => go({ window: zoom(shown(), 0.5), finding: null }),
  wider: () => go({ window: zoom(shown(), 2), finding: null }),
  earlier: () => go({ window: shift(shown(), -0.4), finding: null }),
  later: () => go({ window: shift(shown(), 0.4), finding: null }),
};
function shift(window, share) {
  const by = (window.end - window.start) * share;
  return within(window.start + by, window.end + by);
}

document.addEventListener("click", (event) => {
  const button = event.target.closest("button");
  if (!button) return;
  if (button.dataset.go) steps[button.dataset.go]();
  if (button.dataset.finding) choose(button.dataset.finding);
});

function choose(id) {
  if (current.finding === id) steps.home();
  else go({ window: packed.findings[id].window, finding: id });
}
bar.hidden = false;
`;
