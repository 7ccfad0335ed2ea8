// The page as its reader meets it, in a browser, on a build of the tests' own.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { bench, enter, fieldOf, serve, settled, startBrowser, unfold, verdictLike, verdictOf } from "./bench.mjs";

let browser;
before(async () => { browser = await startBrowser(); });
after(async () => { await browser?.close(); });

const OUTLAST = "needs.outlast";
const button = (page, name) => page.getByRole("button", { name, exact: true });

test("opening a folder gives the verdict, and asks nothing of the outside", async (t) => {
  const { page, faults, outside } = await bench(t, browser);
  assert.match(await verdictOf(page), /3 h asked for/);
  assert.match(await page.title(), /Tideover/);
  assert.equal(await page.getByRole("heading", { level: 1 }).innerText(), "Pier lamp");
  await settled(page);
  assert.equal(await page.locator("#verdict .caution").count(), 0, "no question was refused");
  assert.deepEqual(faults, []);
  assert.deepEqual(outside, []);
});

test("a value changed in its field changes the verdict", async (t) => {
  const { page, read } = await bench(t, browser);
  const first = await verdictOf(page);
  const file = await read();
  await enter(page, OUTLAST, "20 h");
  const then = await verdictLike(page, "20 h asked for");
  assert.notEqual(then, first);
  assert.match(then, /^does not hold/i);
  assert.equal(await read(), file, "nothing is written before Save");
});

test("a value that cannot be is told in words and not taken", async (t) => {
  const { page } = await bench(t, browser);
  await enter(page, OUTLAST, "3 bananas");
  await page.locator("#values .trouble[role=alert]").waitFor();
  assert.match(await verdictOf(page), /3 h asked for/);
  await enter(page, OUTLAST, "4 h");
  await verdictLike(page, "4 h asked for");
  assert.equal(await page.locator("#values .trouble").count(), 0);
});

test("undo and redo go through the changes", async (t) => {
  const { page } = await bench(t, browser);
  await enter(page, OUTLAST, "4 h");
  await verdictLike(page, "4 h asked for");
  await enter(page, "parts.clock.draws", "2 W");
  await page.waitForFunction(() => document.querySelector(".deeds button")?.title.includes("2 W"));
  await button(page, "Undo").click();
  await button(page, "Undo").click();
  await verdictLike(page, "3 h asked for");
  assert.ok(await button(page, "Undo").isDisabled());
  await button(page, "Redo").click();
  await verdictLike(page, "4 h asked for");
  await page.locator("h1").click();
  await page.keyboard.press("Control+z");
  await verdictLike(page, "3 h asked for");
  await page.keyboard.press("Control+Shift+z");
  await verdictLike(page, "4 h asked for");
});

test("saving changes one line and leaves every other byte", async (t) => {
  const { page, read } = await bench(t, browser);
  const file = await read();
  await enter(page, OUTLAST, "4 h");
  await verdictLike(page, "4 h asked for");
  await button(page, "Save").click();
  await button(page, "Saved").waitFor();
  assert.equal(await read(), file.replace('outlast = "3 h"', 'outlast = "4 h"'));
});

test("a reload keeps what is not saved, and the way back", async (t) => {
  const { page, read } = await bench(t, browser);
  const file = await read();
  await enter(page, OUTLAST, "4 h");
  await verdictLike(page, "4 h asked for");
  await page.reload();
  await verdictLike(page, "4 h asked for");
  assert.equal(await read(), file);
  await button(page, "Undo").click();
  await verdictLike(page, "3 h asked for");
});

test("an edit on disk appears where the page has no changes of its own", async (t) => {
  const { page, read, write } = await bench(t, browser);
  await write((await read()).replace('"3 h"', '"5 h"'));
  await verdictLike(page, "5 h asked for");
  await button(page, "Saved").waitFor();
});

test("an edit on disk meets changes of the page: both are shown, nothing is overwritten", async (t) => {
  const { page, read, write } = await bench(t, browser);
  await enter(page, OUTLAST, "4 h");
  await verdictLike(page, "4 h asked for");
  const theirs = (await read()).replace('draws   = "1 W"', 'draws   = "1.5 W"');
  await write(theirs);
  await page.getByRole("heading", { name: "The file differs" }).waitFor();
  assert.ok(await button(page, "The file differs").isDisabled());
  await page.keyboard.press("Control+s");
  assert.equal(await read(), theirs);
  const hunk = (words) => page.locator("fieldset.hunk").filter({ hasText: words });
  await hunk("1.5 W").getByText("the file", { exact: true }).click();
  await button(page, "Go on with what is chosen").click();
  await page.getByRole("heading", { name: "The file differs" }).waitFor({ state: "detached" });
  assert.equal(await read(), theirs, "choosing writes nothing yet");
  await button(page, "Save").click();
  await button(page, "Saved").waitFor();
  assert.equal(await read(), theirs.replace('outlast = "3 h"', 'outlast = "4 h"'));
});

test("an advice is applied with one press", async (t) => {
  const { page, read } = await bench(t, browser);
  await enter(page, "leads.lamp_plus.size", "24 AWG");
  await verdictLike(page, "does not hold");
  await settled(page);
  const apply = page.locator("#findings .apply button").filter({ hasText: "lamp_plus: size" }).first();
  const size = /= (.*)$/.exec(await apply.locator(".what").innerText())?.[1] ?? "";
  assert.match(size, /^\d.* mm2$/);
  await apply.click();
  await page.waitForFunction((words) => document.querySelector(".deeds button")?.title.includes(words), size);
  await settled(page);
  assert.equal(await apply.count(), 0, "what was advised is done");
  await page.keyboard.press("Control+s");
  await button(page, "Saved").waitFor();
  assert.ok((await read()).includes(`size = "${size}", length = "4 m", colour = "RD"`));
});

test("two tabs: one follows what the other saves, or asks", async (t) => {
  const { page, openTab, read } = await bench(t, browser);
  const other = await openTab();
  await enter(page, OUTLAST, "4 h");
  await verdictLike(page, "4 h asked for");
  await button(page, "Save").click();
  await verdictLike(other, "4 h asked for");
  await enter(other, "parts.clock.draws", "1.2 W");
  await button(other, "Save").waitFor();
  await enter(page, OUTLAST, "5 h");
  await verdictLike(page, "5 h asked for");
  await button(page, "Save").click();
  await button(page, "Saved").waitFor();
  await other.getByRole("heading", { name: "The file differs" }).waitFor();
  const file = await read();
  assert.match(file, /outlast = "5 h"/);
  assert.match(file, /draws {3}= "1 W"/);
});

test("the program ends and starts again: the page goes on and has lost nothing", async (t) => {
  const stand = await bench(t, browser, { key: "0123456789abcdef0123456789abcdef" });
  const { page, read } = stand;
  const { port } = stand.server;
  await enter(page, OUTLAST, "4 h");
  await verdictLike(page, "4 h asked for");
  await stand.server.stop();
  await page.getByText("The program is not running").waitFor();
  stand.server = await serve(stand.folder, { port, key: "0123456789abcdef0123456789abcdef" });
  await page.getByText("The program is not running").waitFor({ state: "detached" });
  await enter(page, "parts.clock.draws", "1.2 W");
  await page.waitForFunction(() => document.querySelector(".deeds button")?.title.includes("1.2 W"));
  await button(page, "Save").click();
  await button(page, "Saved").waitFor();
  assert.match(await read(), /outlast = "4 h"/);
  assert.match(await read(), /draws {3}= "1.2 W"/);
});

test("started again with another key, the page says what to do and keeps its changes", async (t) => {
  const stand = await bench(t, browser);
  const { page } = stand;
  const { port } = stand.server;
  await enter(page, OUTLAST, "4 h");
  await verdictLike(page, "4 h asked for");
  await stand.server.stop();
  stand.server = await serve(stand.folder, { port });
  await page.getByText("does not know this window").waitFor();
  await page.goto(stand.server.address);
  await page.reload();
  await verdictLike(page, "4 h asked for");
});

/// Tab until `is_there` holds of the element with the focus.
async function tabTo(page, is_there, key = "Tab") {
  for (let i = 0; i < 400; ++i) {
    await page.keyboard.press(key);
    if (await page.evaluate(is_there)) return;
  }
  assert.fail("the keyboard does not get there");
}

test("with the keyboard alone: to a value, change it, undo, redo, save", async (t) => {
  const { page, read } = await bench(t, browser);
  await settled(page);
  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement?.className), "skip");
  await page.keyboard.press("Enter");
  await tabTo(page, () => document.activeElement?.getAttribute("name") === "needs.outlast");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("4 h");
  await page.keyboard.press("Enter");
  await verdictLike(page, "4 h asked for");
  await tabTo(page, () => document.activeElement?.textContent === "Undo", "Shift+Tab");
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
  assert.notEqual(outline, "none", "the focus is seen");
  await page.keyboard.press("Enter");
  await verdictLike(page, "3 h asked for");
  await page.keyboard.press("Control+y");
  await verdictLike(page, "4 h asked for");
  await page.keyboard.press("Control+s");
  await button(page, "Saved").waitFor();
  assert.match(await read(), /outlast = "4 h"/);
});

test("a slider moved by keys tries the value and sets it", async (t) => {
  const { page } = await bench(t, browser);
  await settled(page);
  await unfold(page);
  const slider = page.locator('input[type=range][data-path="parts.clock.draws"]').first();
  const first = await fieldOf(page, "parts.clock.draws").inputValue();
  await slider.focus();
  for (let i = 0; i < 5; ++i) await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Tab");
  await page.waitForFunction(() => document.querySelector(".deeds button")?.title.includes("draws"));
  assert.notEqual(await fieldOf(page, "parts.clock.draws").inputValue(), first);
});
