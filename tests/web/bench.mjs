// What every test of the page stands on: a build of its own in a folder of its own, the program
// serving it, and a browser that has seen nothing before.
//   TIDEOVER_PROGRAM  the program (needed)
//   TIDEOVER_PAGE     a folder with the page, served in place of the one the program carries
//   TIDEOVER_CHROMIUM the browser (/usr/bin/chromium)
import { spawn } from "node:child_process";
import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";

const require = createRequire(new URL("../../web/package.json", import.meta.url));
const { chromium } = require("playwright-core");
const builds = fileURLToPath(new URL("builds", import.meta.url));

export const axeSource = () => readFile(require.resolve("axe-core/axe.min.js"), "utf8");

const FLAGS = [
  "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
  "--disable-background-networking", "--disable-component-update", "--disable-sync",
];

/// A browser with a new, empty profile, which goes with it.
export const startBrowser = () =>
  chromium.launch({
    executablePath: process.env.TIDEOVER_CHROMIUM ?? "/usr/bin/chromium",
    args: FLAGS,
  });

/// The program serving `folder`; `address` is what it printed.
export async function serve(folder, { port = 0, key } = {}) {
  const program = process.env.TIDEOVER_PROGRAM;
  if (!program) throw new Error("TIDEOVER_PROGRAM does not say where the program is");
  const words = ["open", folder, "--port", String(port)];
  if (process.env.TIDEOVER_PAGE) words.push("--assets", process.env.TIDEOVER_PAGE);
  const child = spawn(program, words, {
    env: { ...process.env, ...(key ? { TIDEOVER_KEY: key } : {}) },
    stdio: ["ignore", "pipe", "pipe"],
  });
  let said = "";
  child.stderr.on("data", (bytes) => (said += bytes));
  const ended = new Promise((done) => child.once("exit", done));
  const address = await new Promise((found, not) => {
    createInterface({ input: child.stdout }).on("line", (line) => {
      const told = /http:\/\/127\.0\.0\.1:\d+\/#key=\S+/.exec(line);
      if (told) found(told[0]);
    });
    void ended.then((code) => not(new Error(`the program ended with ${code}: ${said}`)));
  });
  const stop = async () => {
    child.kill("SIGINT");
    await ended;
  };
  return { address, port: Number(new URL(address).port), stop };
}

/// A copied build with the program serving it and one page on it; `after` of the test clears up.
export async function bench(test, browser, { name = "pier-lamp", width = 1440, ...more } = {}) {
  const above = await mkdtemp(join(tmpdir(), "tideover-page-"));
  const folder = join(above, name);
  await cp(join(builds, name), folder, { recursive: true });
  const context = await browser.newContext({ viewport: { width, height: 900 } });
  const stand = {
    context, folder,
    sheet: join(folder, "sheet.toml"),
    server: await serve(folder, more),
    faults: [], ///< what the page threw
    outside: [], ///< addresses asked for that are not the program's
  };
  context.on("request", (request) => {
    const { protocol, hostname } = new URL(request.url());
    if (protocol.startsWith("http") && hostname !== "127.0.0.1") stand.outside.push(request.url());
  });
  stand.openTab = async () => {
    const page = await context.newPage();
    page.setDefaultTimeout(8_000);
    page.on("pageerror", (error) => stand.faults.push(error.message));
    await page.goto(stand.server.address);
    await verdictOf(page);
    return page;
  };
  stand.read = () => readFile(stand.sheet, "utf8");
  stand.write = (text) => writeFile(stand.sheet, text);
  test.after(async () => {
    await context.close();
    await stand.server.stop();
    await rm(above, { recursive: true, force: true });
  });
  stand.page = await stand.openTab();
  return stand;
}

/// The verdict in short, once it has been given for the text on the page.
export async function verdictOf(page) {
  await page.locator("[data-verdict] .mark").waitFor();
  return page.locator("[data-verdict]").innerText();
}

/// Waits until the short verdict matches, and tells it.
export async function verdictLike(page, words) {
  await page.locator("[data-verdict]").filter({ hasText: words }).waitFor();
  return verdictOf(page);
}

/// Everything asked about the text has been answered.
export const settled = (page) =>
  page.waitForFunction(() => document.querySelector(".pace")?.textContent === "", null,
    { timeout: 60_000 });

export const fieldOf = (page, path) => page.locator(`input[type=text][name="${path}"]`).first();

/// Opens what is folded among the values.
export const unfold = (page) =>
  page.locator("#values .things").first().evaluate(() => {
    for (const one of document.querySelectorAll("#values details")) one.open = true;
  });

/// Writes a value into its field, as a reader does.
export async function enter(page, path, text) {
  await unfold(page);
  const field = fieldOf(page, path);
  await field.fill(text);
  await field.press("Enter");
}
