import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect } from "vitest";

const executable = ["/usr/bin", ...(process.env.PATH ?? "").split(delimiter)]
  .map((folder) => join(folder, "chromium"))
  .find((path) => existsSync(path));

/** Whether there is a browser to try pages in; says loudly where there is none, and under CI fails. */
export function hasBrowser(what: string): boolean {
  if (executable !== undefined) return true;
  const message = `no Chromium on this machine: ${what} is not tried in a browser`;
  if (process.env.CI) throw new Error(`${message}; install the package chromium`);
  console.warn(`SKIPPED: ${message}`);
  return false;
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

/** A browser with the network off for the tests of one file, and the pages that it opens. */
export function pageBrowser() {
  let browser: Browser;
  let folder: string;
  let context: BrowserContext | undefined;
  const urls = new Map<string, string>();

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "fettle-page-"));
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

  return {
    /** Keeps a page to open by name; gives back its size in bytes. */
    write(name: string, html: string): number {
      const file = join(folder, `${name}.html`);
      writeFileSync(file, html);
      urls.set(name, `file://${file}`);
      return Buffer.byteLength(html);
    },
    /** Opens a page and collects everything that it should not have done. */
    async open(name: string, options: { dark?: boolean; width?: number } = {}) {
      const url = urls.get(name)!;
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
    },
  };
}

/** Evaluates from outside, as developer tools do: the page's own policy forbids evaluation from within. */
export async function look(page: Page, expression: string): Promise<unknown> {
  const session = await page.context().newCDPSession(page);
  const answer = await session.send("Runtime.evaluate", { expression, awaitPromise: true, returnByValue: true });
  await session.detach();
  return answer.result.value;
}

/** What axe-core finds must be nothing. */
export async function expectNoBarrier(page: Page): Promise<void> {
  const source = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
  await look(page, `${source};0`);
  const { violations } = (await look(page, "axe.run()")) as {
    violations: { id: string; nodes: { html: string; failureSummary: string }[] }[];
  };
  expect(
    violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html.slice(0, 200)} ${nodes[0]!.failureSummary}`),
  ).toEqual([]);
}
