import { beforeAll, describe, expect, test } from "vitest";
import { renderComparisonPage } from "../../src/report/index.ts";
import { expectNoBarrier, hasBrowser, look, pageBrowser } from "./page-browser.ts";
import { surveyComparison } from "./survey-comparison.ts";

describe.skipIf(!hasBrowser("the comparison page"))("the comparison page in a browser with the network off", () => {
  const { open, write } = pageBrowser();
  const made = { survey: surveyComparison(), nasty: surveyComparison({ nasty: true }) };

  beforeAll(() => {
    for (const [name, { comparison, charts }] of Object.entries(made)) {
      write(name, renderComparisonPage(comparison, charts));
    }
  });

  test("every chart is drawn without a console message, a request or a breach of the policy", async () => {
    const { page, wrong } = await open("survey");
    expect(made.survey.charts.length).toBeGreaterThan(6);
    expect(await page.locator("figure svg").count()).toBe(made.survey.charts.length);
    expect(wrong).toEqual([]);
  });

  test.each([
    ["light", false],
    ["dark", true],
  ])("nothing keeps a reader out in %s", async (_, dark) => {
    const { page } = await open("survey", { dark });
    await look(page, "document.querySelectorAll('details').forEach((one) => { one.open = true; })");
    await expectNoBarrier(page);
  });

  test.each(["survey", "nasty"])("the %s page is no wider than a screen of 390 px", async (name) => {
    const { page, wrong } = await open(name, { width: 390 });
    expect(await look(page, "document.documentElement.scrollWidth")).toBe(390);
    expect(wrong).toEqual([]);
  });

  test("hostile names do nothing", async () => {
    const { page, wrong } = await open("nasty");
    expect(await look(page, "window.caught")).toBeUndefined();
    expect(wrong).toEqual([]);
  });
});
