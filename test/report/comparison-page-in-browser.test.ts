import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { renderComparisonPage } from "../../src/report/index.ts";
import { surveyComparison } from "./survey-comparison.ts";

const executable = ["/usr/bin", ...(process.env.PATH ?? "").split(delimiter)]
  .map((folder) => join(folder, "chromium"))
  .find((path) => existsSync(path));
if (executable === undefined) {
  const message = "no Chromium on this machine: the comparison page is not tried in a browser";
  if (process.env.CI) throw new Error(`${message}; install the package chromium`);
  console.warn(`SKIPPED: ${message}`);
}

const FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"];

describe.skipIf(executable === undefined)("the comparison page in a browser with the network off", () => {
  let browser: Browser;
  let folder: string;
  let context: BrowserContext | undefined;
  const made = { survey: surveyComparison(), nasty: surveyComparison({ nasty: true }) };

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "fettle-page-"));
    for (const [name, { comparison, charts }] of Object.entries(made)) {
      writeFileSync(join(folder, `${name}.html`), renderComparisonPage(comparison, charts));
    }
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

  async function open(name: string, options: { dark?: boolean; width?: number } = {}) {
    const url = `file://${join(folder, `${name}.html`)}`;
    context = await browser.newContext({
      offline: true,
      viewport: { width: options.width ?? 1280, height: 900 },
      colorScheme: options.dark ? "dark" : "light",
    });
    const page = await context.newPage();
    const wrong: string[] = [];
    page.on("console", (message) => wrong.push(`${message.type()}: ${message.text()}`));
    page.on("pageerror", (error) => wrong.push(`error: ${error.message}`));
    page.on("request", (request) => request.url() !== url && wrong.push(`request: ${request.url()}`));
    page.on("dialog", (dialog) => wrong.push(`dialog: ${dialog.message()}`));
    await page.goto(url);
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
    const source = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
    await look(page, "document.querySelectorAll('details').forEach((one) => { one.open = true; })");
    await look(page, `${source};0`);
    const { violations } = (await look(page, "axe.run()")) as {
      violations: { id: string; nodes: { html: string; failureSummary: string }[] }[];
    };
    expect(
      violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html.slice(0, 200)} ${nodes[0]!.failureSummary}`),
    ).toEqual([]);
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
