// What the page is to those who see it small, dark, on paper or not at all.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { axeSource, bench, settled, startBrowser } from "./bench.mjs";

let browser;
before(async () => { browser = await startBrowser(); });
after(async () => { await browser?.close(); });

for (const width of [1440, 360])
  for (const scheme of ["light", "dark"])
    test(`axe-core finds nothing at ${width} px, ${scheme}`, async (t) => {
      const { page } = await bench(t, browser, { width });
      await page.emulateMedia({ colorScheme: scheme, reducedMotion: "reduce" });
      await settled(page);
      for (const details of await page.locator("details:not([open]) > summary").all())
        if (await details.isVisible()) await details.click();
      await page.evaluate(await axeSource());
      const { violations, passes } = await page.evaluate(() => globalThis.axe.run());
      const told = violations.flatMap((one) =>
        one.nodes.slice(0, 3).map((node) => `${one.id}: ${node.html.slice(0, 160)} ${node.failureSummary}`));
      assert.deepEqual(told, []);
      assert.ok(passes.length > 20, "it looked at something");
    });

test("at 360 px nothing runs out of the window sideways", async (t) => {
  const { page } = await bench(t, browser, { width: 360 });
  await settled(page);
  const [wide, seen] = await page.evaluate(() =>
    [document.documentElement.scrollWidth, document.documentElement.clientWidth]);
  assert.ok(wide <= seen, `${wide} px wide in a window of ${seen} px`);
});

test("printed, it is a paper of several pages", async (t) => {
  const { page } = await bench(t, browser);
  await settled(page);
  const paper = await page.pdf({ format: "A4" });
  assert.equal(paper.subarray(0, 5).toString(), "%PDF-");
  const pages = paper.toString("latin1").match(/\/Type\s*\/Page\b/g)?.length ?? 0;
  assert.ok(pages >= 2, `${pages} pages`);
});
