import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { renderPage } from "../../src/report/index.ts";
import { nastySurvey } from "./nasty-survey.ts";
import { expectNoBarrier, hasBrowser, look, pageBrowser } from "./page-browser.ts";
import { surveyDiagnosis } from "./survey-diagnosis.ts";

describe.skipIf(!hasBrowser("the report page"))("the report page in a browser with the network off", () => {
  const { open, write } = pageBrowser();
  const survey = surveyDiagnosis({ duration: 120 });

  beforeAll(() => {
    const nasty = nastySurvey();
    write("survey", renderPage(survey.diagnosis, survey.charts));
    write("nasty", renderPage(nasty.diagnosis, nasty.charts));
    write("nothing", renderPage({ ...survey.diagnosis, findings: [] }, []));
  });

  const windows = (page: Page) =>
    page.$$eval("figure:not(details figure) .plot[data-from]", (plots) =>
      plots.map((plot) => [plot.getAttribute("data-from"), plot.getAttribute("data-to")].map(Number)),
    );

  test("every chart is drawn without a console message, a request or a breach of the policy", async () => {
    const { page, wrong } = await open("survey");
    expect(await page.locator("figure svg").count()).toBe(survey.charts.length);
    expect(wrong).toEqual([]);
  });

  test("a chart that cannot be drawn says so, and all the others are drawn", async () => {
    const [first, ...others] = survey.charts;
    const spec = { ...first!.spec, layer: [{ mark: "no such mark" }] } as never;
    write("broken", renderPage(survey.diagnosis, [{ ...first!, spec }, ...others]));
    const { page, wrong } = await open("broken");
    expect(await page.locator("figure svg").count()).toBe(others.length);
    expect(await page.locator(`#chart-${first!.id} .drawn`).textContent()).toMatch(/could not be drawn/);
    expect(wrong.filter((what) => !what.includes(first!.id))).toEqual([]);
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
    await plot.scrollIntoViewIfNeeded();
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
    await plot.scrollIntoViewIfNeeded();
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
    await expectNoBarrier(page);
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
    const size = write("long", renderPage(long.diagnosis, long.charts)) / 1e6;
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
