import { signal } from "@preact/signals";
import type { Hello } from "../api";
import { link } from "../link";
import { isBegun } from "../sheet";
import { Bands } from "./bands";
import { Begin } from "./begin";
import { Cautions } from "./cautions";
import { Conflict } from "./conflict";
import { Bench } from "./bench";
import { Faults } from "./faults";
import { Findings } from "./findings";
import { Header } from "./header";
import { Notices } from "./notices";
import { SheetText } from "./sheet_text";
import { Since } from "./since";
import { Standing } from "./standing";
import { Story } from "./story";
import { Timelines } from "./timelines";
import { Values } from "./values";
import { Verdict } from "./verdict";

export const hello = signal<Hello | null>(null);

function Build() {
  return (
    <>
      <Standing />
      <main id="main">
        <Header />
        <Conflict />
        <Verdict />
        <Since />
        <Findings />
        <Bench />
        <Story />
        <Values />
        <Timelines />
        <Bands />
        <Faults />
        <SheetText />
        <Cautions />
      </main>
    </>
  );
}

export function Page() {
  const greeted = hello.value;
  return (
    <>
      <a class="skip" href="#main">Straight to the verdict</a>
      <Notices />
      {greeted === null ? (
        <main id="main" class="waiting">
          <h1>Tideover</h1>
          <p role="status">{link.value === "opening" ? "Opening the sheet" : "Waiting for the program"}</p>
        </main>
      ) : isBegun.value ? (
        <Build />
      ) : (
        <main id="main">
          <Begin folder={greeted.folder} />
          <Cautions />
        </main>
      )}
    </>
  );
}
