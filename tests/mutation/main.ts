import { spawn } from "node:child_process"
import { chmodSync, mkdtempSync, rmSync } from "node:fs"
import { tmpdir } from "node:os"
import path from "node:path"
import { createInterface } from "node:readline"
import { fileURLToPath } from "node:url"
import { parseArgs } from "node:util"
import { z } from "zod"
import { readAccepted } from "./accepted"
import { prepareClinics } from "./clinics"
import { reportOf, type Verdict } from "./report"
import { openSlowChecks } from "./slow-checks"
import { allTargets, placedMutants } from "./targets"

/*
 * `npm run mutation` changes every comparison, constant and boolean word of the clinical SQL, one at a time, and tells which
 * changes nothing notices. What is right is known from published check values, from people worked out by hand and from the
 * independent route; a mutant these let live is put to the test files that ask the SQL.
 * `-- --only views/25` looks at some files, `--quick` leaves the test files out, `--clinics DIR` keeps the prepared clinics.
 */
const { values } = parseArgs({
  options: {
    only: { type: "string", default: "" },
    quick: { type: "boolean", default: false },
    clinics: { type: "string" },
    workers: { type: "string", default: "2" },
  },
})
const scratch = mkdtempSync(path.join(tmpdir(), "filtrate-mutation-"))
// The database server may run as a user of its own, who must be able to enter.
chmodSync(scratch, 0o755)
const say = (line: string) => void process.stderr.write(`${line}\n`)
const Line = z.object({ id: z.string(), by: z.string().nullable() })

try {
  const { lines, isEnough } = reportOf(await verdicts(), readAccepted())
  process.stdout.write(`${lines.join("\n")}\n`)
  process.exitCode = isEnough ? 0 : 1
} finally {
  rmSync(scratch, { recursive: true, force: true })
}

async function verdicts(): Promise<Verdict[]> {
  const clinics = values.clinics ?? path.join(scratch, "clinics")
  await prepareClinics(clinics)
  const mutants = allTargets()
    .filter((target) => target.file.includes(values.only))
    .flatMap(placedMutants)
  say(`${mutants.length} mutants`)
  const workers = Number(values.workers)
  const answers = await Promise.all(
    Array.from({ length: workers }, (_, place) => work({ clinics, place, workers })),
  )
  const byId = new Map(answers.flat().map((answer) => [answer.id, answer.by]))
  const quick = mutants.map((mutant) => ({ mutant, by: byId.get(mutant.id) ?? null }))
  return values.quick ? quick : slowly(quick)
}

async function work(options: { clinics: string; place: number; workers: number }) {
  const worker = fileURLToPath(new URL("worker.ts", import.meta.url))
  const asked = [options.clinics, values.only, String(options.place), String(options.workers)]
  const child = spawn(process.execPath, [...process.execArgv, worker, ...asked], {
    stdio: ["ignore", "pipe", "inherit"],
  })
  const ended = new Promise<number | null>((resolve) => child.once("exit", resolve))
  const answers: z.infer<typeof Line>[] = []
  for await (const line of createInterface({ input: child.stdout })) {
    answers.push(Line.parse(JSON.parse(line)))
    if (answers.length % 100 === 0) say(`worker ${options.place + 1}: ${answers.length}`)
  }
  if ((await ended) !== 0) throw new Error("a worker stopped before its end")
  return answers
}

/** Those that the quick checks let live, before the test files. */
async function slowly(quick: readonly Verdict[]): Promise<Verdict[]> {
  const alive = quick.filter((verdict) => verdict.by === null).length
  if (alive === 0) return [...quick]
  say(`${alive} live so far; each is put to the test files`)
  const checks = await openSlowChecks(scratch)
  const all: Verdict[] = []
  for (const verdict of quick)
    all.push(verdict.by === null ? { ...verdict, by: await checks.killerOf(verdict.mutant) } : verdict)
  return all
}
