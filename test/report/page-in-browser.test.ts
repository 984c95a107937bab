import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { renderPage } from "../../src/report/index.ts";
import { nastySurvey } from "./nasty-survey.ts";
import { type Survey, surveyDiagnosis } from "./survey-diagnosis.ts";

const executable = ["/usr/bin", ...(process.env.PATH ?? "").split(delimiter)]
  .map((folder) => join(folder, "chromium"))
  .find((path) => existsSync(path));
if (executable === undefined) {
  const message = "no Chromium on this machine: the report page is not tried in a browser";
  if (process.env.CI) throw new Error(`${message}; install the package chromium`);
  console.warn(`SKIPPED: ${message}`);
}

const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

describe.skipIf(executable === undefined)("the report page in a browser with the network off", () => {
  let browser: Browser;
  let folder: string;
  let context: BrowserContext | undefined;
  const survey = surveyDiagnosis({ duration: 120 });
  const files = new Map<string, string>();

  const write = (name: string, { diagnosis, charts }: Pick<Survey, "diagnosis" | "charts">) => {
    const file = join(folder, `${name}.html`);
    writeFileSync(file, renderPage(diagnosis, charts));
    files.set(name, `file://${file}`);
  };

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "fettle-page-"));
    write("survey", survey);
    write("nasty", nastySurvey());
    write("nothing", { diagnosis: { ...survey.diagnosis, findings: [] }, charts: [] });
    browser = await chromium.launch({ executablePath: executable!, args: FLAGS });
  });
  afterEach(async () => {
    await context?.close();
    context = undefined;
  });
  afterAll(async () => {
    await browser?.close();
    if (folder) rmSync(folder, { recursive: true });
  });

  /** Opens a page and collects everything that it should not have done. */
  async function open(name: string, options: { dark?: boolean; width?: number } = {}) {
    context = await browser.newContext({
      offline: true,
      viewport: { width: options.width ?? 1280, height: 900 },
      colorScheme: options.dark ? "dark" : "light",
    });
    const page = await context.newPage();
    const wrong: string[] = [];
    page.on("console", (message) => wrong.push(`${message.type()}: ${message.text()}`));
    page.on("pageerror", (error) => wrong.push(`error: ${error.message}`));
    page.on("request", (request) => request.url() !== files.get(name) && wrong.push(`request: ${request.url()}`));
    page.on("dialog", (dialog) => wrong.push(`dialog: ${dialog.message()}`));
    await page.goto(files.get(name)!);
    await page.waitForSelector("html[data-drawn=all]", { timeout: 30_000 });
    return { page, wrong };
  }

  /** Evaluates from outside, as developer tools do: the page's own policy forbids evaluation from within. */
  async function look(page: Page, expression: string): Promise<unknown> {
    const session = await page.context().newCDPSession(page);
    const answer = await session.send("Runtime.evaluate", { expression, awaitPromise: true, returnByValue: true });
    await session.detach();
    return answer.result.value;
  }

  const windows = (page: Page) =>
    page.$$eval("figure:not(details figure) .plot[data-from]", (plots) =>
      plots.map((plot) => [plot.getAttribute("data-from"), plot.getAttribute("data-to")].map(Number)),
    );

  test("every chart is drawn without a console message, a request or a breach of the policy", async () => {
    const { page, wrong } = await open("survey");
    expect(await page.locator("figure svg").count()).toBe(survey.charts.length);
    expect(wrong).toEqual([]);
  });

  test("choosing a finding by keyboard moves every chart over time to its window, and Back returns", async () => {
    const { page } = await open("survey");
    const before = await windows(page);
    const chosen = survey.diagnosis.findings.find(({ id }) => id === "oscillation-pitch-1")!;
    await page.locator(`.list button[data-finding="${chosen.id}"]`).focus();
    await page.keyboard.press("Enter");
    await scrollThrough(page);
    const { start, end } = chosen;
    for (const [from, to] of await windows(page)) {
      expect(from).toBeLessThanOrEqual(start);
      expect(to).toBeGreaterThanOrEqual(end);
      expect(to! - from!).toBeLessThan(2 * (end - start));
    }
    expect(await page.locator(".bar output").textContent()).toMatch(/^Pitch oscillation: all charts show /);
    await page.locator("[data-go=back]").focus();
    await page.keyboard.press("Enter");
    await scrollThrough(page);
    expect(await windows(page)).toEqual(before);
  });

  test("a chart reads out values, zooms and goes back by keyboard alone", async () => {
    const { page } = await open("survey");
    const figure = page.locator("#chart-tracking-rate-pitch");
    const plot = figure.locator(".plot");
    await plot.focus();
    await page.keyboard.press("ArrowRight");
    expect(await figure.locator(".readout").textContent()).toMatch(
      /^at 61\.20 s: what it did .+ deg\/s, what was asked .+ deg\/s$/,
    );
    expect(await plot.getAttribute("aria-valuetext")).toMatch(/^at 61\.20 s/);
    await page.keyboard.press("+");
    expect(await plot.getAttribute("data-to").then(Number)).toBeLessThan(120);
    await page.keyboard.press("Backspace");
    expect(await plot.getAttribute("data-to").then(Number)).toBe(120);
  });

  test("dragging over a chart looks closer", async () => {
    const { page } = await open("survey");
    const plot = page.locator("#chart-timeline .plot");
    const box = (await plot.boundingBox())!;
    await page.mouse.move(box.x + box.width * 0.4, box.y + 30);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.6, box.y + 30, { steps: 4 });
    await page.mouse.up();
    const from = Number(await plot.getAttribute("data-from"));
    const to = Number(await plot.getAttribute("data-to"));
    expect(from).toBeGreaterThan(35);
    expect(to).toBeLessThan(80);
  });

  test("a finger that slides sideways looks closer, one that taps reads a value", async () => {
    const { page } = await open("survey", { width: 390 });
    const figure = page.locator("#chart-tracking-rate-pitch");
    const plot = figure.locator(".plot");
    await plot.scrollIntoViewIfNeeded();
    await page.waitForTimeout(100);
    const box = (await plot.boundingBox())!;
    const session = await page.context().newCDPSession(page);
    const finger = (type: "touchStart" | "touchMove" | "touchEnd", share?: number) =>
      session.send("Input.dispatchTouchEvent", {
        type,
        touchPoints: share === undefined ? [] : [{ x: box.x + box.width * share, y: box.y + 40 }],
      });
    await finger("touchStart", 0.6);
    await finger("touchEnd");
    expect(await figure.locator(".readout").textContent()).toMatch(/^at \d+\.\d+ s: what it did/);
    const before = Number(await plot.getAttribute("data-to")) - Number(await plot.getAttribute("data-from"));
    await finger("touchStart", 0.4);
    for (const share of [0.45, 0.5, 0.55, 0.6]) await finger("touchMove", share);
    await finger("touchEnd");
    const after = Number(await plot.getAttribute("data-to")) - Number(await plot.getAttribute("data-from"));
    expect(after).toBeLessThan(0.4 * before);
    expect(after).toBeGreaterThan(0);
  });

  test("a note unfolds its chart, which then shows the window that was chosen", async () => {
    const { page } = await open("survey");
    const index = survey.diagnosis.findings.findIndex(({ id }) => id === "oscillation-pitch-1");
    await page.locator(".list button").nth(index).click();
    await page.locator(".folded > details > summary").first().click();
    const plot = page.locator(".folded .plot").first();
    await plot.scrollIntoViewIfNeeded();
    const { start } = survey.diagnosis.findings[index]!;
    await expect.poll(async () => Number(await plot.getAttribute("data-from"))).toBeGreaterThan(start / 2);
    expect(
      await plot
        .locator("svg")
        .boundingBox()
        .then((box) => box!.width),
    ).toBeGreaterThan(400);
  });

  test("a click on a finding in the time line chooses it", async () => {
    const { page } = await open("survey");
    const plot = page.locator("#chart-timeline .plot");
    const box = (await plot.boundingBox())!;
    const number = survey.diagnosis.findings.findIndex(({ id }) => id === "oscillation-pitch-1") + 1;
    const label = (await plot
      .locator("svg text", { hasText: new RegExp(`^${number}$`) })
      .first()
      .boundingBox())!;
    await page.mouse.click(label.x + 12, label.y + 12);
    expect(box.height).toBeGreaterThan(100);
    expect(await page.locator(".bar output").textContent()).toMatch(/^Pitch oscillation: /);
  });

  test.each([
    ["light", false],
    ["dark", true],
  ])("nothing keeps a reader out in %s", async (_, dark) => {
    const { page } = await open("survey", { dark });
    const source = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
    await look(page, `${source};0`);
    const { violations } = (await look(page, "axe.run()")) as {
      violations: { id: string; nodes: { html: string; failureSummary: string }[] }[];
    };
    expect(
      violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html.slice(0, 200)} ${nodes[0]!.failureSummary}`),
    ).toEqual([]);
  });

  test.each(["survey", "nasty", "nothing"])("the %s page is no wider than a screen of 390 px", async (name) => {
    const { page, wrong } = await open(name, { width: 390 });
    expect(await look(page, "document.documentElement.scrollWidth")).toBe(390);
    expect(wrong).toEqual([]);
  });

  test("hostile names do nothing", async () => {
    const { page, wrong } = await open("nasty");
    expect(await look(page, "window.caught")).toBeUndefined();
    expect(wrong).toEqual([]);
    expect(await page.locator(".finding").count()).toBe(survey.diagnosis.findings.length);
  });

  test.each(["A4", "Letter"])("it prints on a reasonable number of %s pages", async (format) => {
    const { page } = await open("survey");
    const pdf = (await page.pdf({ format })).toString("latin1");
    const pages = pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
    expect(pages).toBeGreaterThanOrEqual(5);
    expect(pages).toBeLessThanOrEqual(14);
  });

  test("a page of a ten-minute log at 1000 Hz is below 4 MB, and how long it took to open is told", async () => {
    const long = surveyDiagnosis({ duration: 600, rate: 1000 });
    write("long", long);
    const size = readFileSync(new URL(files.get("long")!)).length / 1e6;
    const { page, wrong } = await open("long");
    // The best of three: what else the machine does at the time is not the page's doing.
    const times: number[] = [];
    for (let run = 0; run < 3; run++) {
      await page.reload();
      times.push((await look(page, "performance.getEntriesByType('navigation')[0].loadEventEnd")) as number);
    }
    const shown = Math.min(...times);
    console.log(`page of 10 min at 1000 Hz: ${size.toFixed(2)} MB, loaded after ${shown.toFixed(0)} ms`);
    expect(size).toBeLessThan(4);
    expect(wrong).toEqual([]);
  });

  /** Charts out of sight are brought up to date when they come near. */
  async function scrollThrough(page: Page): Promise<void> {
    const height = (await look(page, "document.body.scrollHeight")) as number;
    for (let y = 0; y < height; y += 700) {
      await look(page, `scrollTo(0, ${y})`);
      await page.waitForTimeout(30);
    }
    await look(page, "scrollTo(0, 0)");
  }
});
