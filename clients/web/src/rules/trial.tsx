import type { ComponentChildren } from "preact";
import { Mark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import { phrase } from "../words/phrase";
import { Cases } from "./cases";
import { Effects, grave } from "./effects";
import { Doubts, Problems } from "./problems";
import { Replay } from "./replay";
import type { Tried } from "./tried";

type Props = { tried: Tried; texts: Record<string, string>; file?: string; onJump?: (line: number, column: number) => void };

// Trial is what a set of texts would mean: whether it loads, what it does to answers, its worked cases, and the record.
export function Trial({ tried, texts, file, onJump }: Props) {
  const { checked, tested, busy, failure } = tried;
  const problems = checked?.problems ?? [];
  const findings = checked?.findings ?? [];
  const loads = !!checked && problems.length === 0;
  return (
    <div class="trial">
      <p id="checked" role="status">
        {busy ? phrase("Checking …") : loads ? phrase("This set would load.") : checked ? countOf(problems, file) : ""}
      </p>
      <Trouble failure={failure} />
      <Problems checked={checked} file={file} onJump={onJump} />
      {loads && (
        <>
          {findings.length > 0 && (
            <Part name={phrase("What is doubtful")} state={<Mark shape="care">{phrase("{n} {n|finding|findings}", { n: findings.length })}</Mark>}>
              <Doubts findings={findings} file={file} />
            </Part>
          )}
          <Part name={phrase("What it does to answers")} state={<EffectState tried={tried} />} open={(checked.effects?.effects ?? []).some(grave)}>
            <Effects effects={checked.effects} />
          </Part>
          <Part name={phrase("Worked cases")} state={<CaseState tried={tried} />} open={(tested?.failed ?? 0) > 0}>
            <Cases tested={tested} />
          </Part>
        </>
      )}
      <Part name={phrase("What it would have answered")} state={<span class="soft">{phrase("on request")}</span>}>
        <Replay texts={texts} loads={loads && !busy} />
      </Part>
    </div>
  );
}

function countOf(problems: { file?: string }[], file: string | undefined): string {
  const here = problems.filter((p) => p.file === file).length;
  if (file && here) return phrase("{n} {n|problem|problems} in this file", { n: here });
  if (file) return phrase("{n} {n|problem|problems} in other files", { n: problems.length });
  return phrase("{n} {n|problem|problems}", { n: problems.length });
}

// Part is one answer, told in a line and in full behind it.
function Part({ name, state, open = false, children }: { name: string; state: ComponentChildren; open?: boolean; children: ComponentChildren }) {
  return (
    <details class="fold" open={open}>
      <summary>
        <h2>{name}</h2> {state}
      </summary>
      {children}
    </details>
  );
}

function EffectState({ tried: { checked } }: { tried: Tried }) {
  const effects = checked?.effects?.effects ?? [];
  const n = effects.length + (checked?.effects?.more ?? 0);
  const bad = effects.filter(grave).length;
  if (bad > 0) return <Mark shape="danger">{phrase("{n} {n|change|changes}, {bad} to be accepted", { n, bad })}</Mark>;
  if (n > 0) return <Mark shape="half">{phrase("{n} {n|change|changes}", { n })}</Mark>;
  return <Mark shape="done">{phrase("none changes")}</Mark>;
}

function CaseState({ tried: { tested, busy } }: { tried: Tried }) {
  if (!tested) return <span class="soft">{busy ? phrase("running …") : ""}</span>;
  if (tested.failed)
    return <Mark shape="stop">{phrase("{failed} of {all} come out otherwise", { failed: tested.failed, all: tested.failed + (tested.passed ?? 0) })}</Mark>;
  return <Mark shape="done">{phrase("all {n} as expected", { n: tested.passed ?? 0 })}</Mark>;
}
