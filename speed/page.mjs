// How long a slider's thumb waits for its verdict: from the input event to the short verdict
// being that of the value under the thumb. Prints lines of the form `name: value unit`.
// Wants TIDEOVER_PROGRAM, and TIDEOVER_PAGE where the program carries no page.
import { bench, settled, startBrowser, unfold } from "../tests/web/bench.mjs";

const MOVES = 60;
const endings = [];
const browser = await startBrowser();
try {
  const { page } = await bench({ after: (end) => endings.push(end) }, browser);
  await settled(page);
  await unfold(page);
  const slider = page.locator("input[type=range][data-path]").first();
  const waits_ms = await slider.evaluate(async (thumb, moves) => {
    const verdict = document.querySelector("[data-verdict]");
    const last = Number(thumb.max);
    const waits = [];
    for (let i = 0; i < moves; ++i) {
      const was = verdict.dataset.tried;
      const from = performance.now();
      thumb.value = String(i % (last + 1));
      thumb.dispatchEvent(new Event("input", { bubbles: true }));
      while (verdict.dataset.tried === was) {
        if (performance.now() - from > 5000) throw new Error("no verdict within 5 s");
        await new Promise((done) => requestAnimationFrame(done));
      }
      waits.push(performance.now() - from);
    }
    return waits.sort((a, b) => a - b);
  }, MOVES);
  const share = (of) => waits_ms[Math.min(waits_ms.length - 1, Math.ceil(of * waits_ms.length) - 1)];
  console.log(`page drag p50: ${share(0.5).toFixed(1)} ms`);
  console.log(`page drag p95: ${share(0.95).toFixed(1)} ms`);
  console.log(`page drag moves: ${waits_ms.length} moves`);
} finally {
  for (const end of endings) await end();
  await browser.close();
}
