import { render } from "preact";
import { keepAsking } from "./asking";
import { askHello, Trouble } from "./door";
import { holdLink, link } from "./link";
import { heedKeys } from "./keys";
import { heedLinks } from "./links";
import { open } from "./sheet";
import { hello, Page } from "./view/page";

const pause = (ms: number) => new Promise<void>((done) => setTimeout(done, ms));

/// Until the program answers: it may be started after its page is reloaded.
async function begin(): Promise<void> {
  for (;;) {
    try {
      const greeted = await askHello();
      await open(greeted.folder);
      hello.value = greeted;
      return;
    } catch (error) {
      if (!(error instanceof Trouble)) throw error;
      link.value = error.kind === "key" ? "key" : "away";
      await pause(1000);
    }
  }
}

const root = document.getElementById("page");
if (!root) throw new Error("index.html has no #page");
render(<Page />, root);
await begin();
heedKeys();
heedLinks();
keepAsking();
void holdLink();
