import { chmod, mkdtemp, mkdir, rm } from "node:fs/promises"
import { tmpdir } from "node:os"
import path from "node:path"
import { tableFromIPC } from "apache-arrow"
import { writeDemoClinic } from "../../seed/write-demo-clinic"
import { refresh } from "../../lib/jobs/refresh"
import { runImport } from "../../lib/import/run"
import { openDatabase } from "../../lib/store/database"
import { readEnvironment } from "../../lib/env"
import { openRandom } from "../../seed/random"
import { freePort, startSite } from "../helpers/filtrate"
import { benchAlarms } from "./alarms"
import { benchCases } from "./cases"
import { benchImport } from "./import"
import { benchRefresh } from "./refresh"
import { benchReviews } from "./reviews"
import { benchScreens } from "./screens"
import { benchWhatIf } from "./what-if"

// `npm run bench` measures everything; `npm run bench -- alarms import refresh reviews cases screens what-if` names parts.
const parts = process.argv.slice(2)
const isAsked = (part: string) => parts.length === 0 || parts.includes(part)

const workDir = await mkdtemp(path.join(tmpdir(), "filtrate-bench-"))
// The database server may run as a user of its own, who must be able to enter.
await chmod(workDir, 0o755)
const say = (line: string) => void process.stderr.write(`${line}\n`)
try {
  if (isAsked("alarms")) benchAlarms({ runs: 4000, random: openRandom(11, "alarms") })
  if (isAsked("import") || isAsked("refresh") || isAsked("reviews") || isAsked("what-if")) await benchStore()
  if (isAsked("cases")) await benchManyCases()
  if (isAsked("screens")) await benchSite()
} finally {
  await rm(workDir, { recursive: true, force: true })
}

async function benchStore(): Promise<void> {
  const dataDir = path.join(workDir, "store")
  await mkdir(dataDir, { recursive: true })
  const environment = { ...readEnvironment(), databaseUrl: undefined, dataDir }
  const database = await openDatabase({ environment, say })
  try {
    if (isAsked("import"))
      await benchImport({ databaseUrl: database.url, dataDir, workDir, rows: 1_000_000, runs: 3 })
    if (isAsked("refresh") || isAsked("reviews") || isAsked("what-if")) {
      const folder = path.join(workDir, "clinic")
      say("Writing a clinic of 20,000 patients")
      writeDemoClinic({ folder, patients: 20_000, seed: 7, through: "2026-10-31" })
      await runImport({
        databaseUrl: database.url,
        dataDir,
        location: folder,
        isFull: true,
        isDryRun: false,
        isAccepted: true,
        now: new Date("2026-11-01T12:00:00Z"),
        timeZone: "UTC",
        say,
      })
      if (isAsked("refresh")) await benchRefresh({ databaseUrl: database.url, dataDir, runs: 3 })
      else await refresh({ databaseUrl: database.url, dataDir })
      if (isAsked("reviews")) await benchReviews({ dataDir, runs: 5 })
      if (isAsked("what-if")) await benchWhatIf({ dataDir, runs: 5 })
    }
  } finally {
    await database.close()
  }
}

async function benchManyCases(): Promise<void> {
  const dataDir = path.join(workDir, "cases")
  await mkdir(dataDir, { recursive: true })
  const environment = { ...readEnvironment(), databaseUrl: undefined, dataDir }
  const database = await openDatabase({ environment, say })
  try {
    await benchCases({ databaseUrl: database.url, dataDir, cases: 50_000, runs: 30 })
  } finally {
    await database.close()
  }
}

async function benchSite(): Promise<void> {
  const port = await freePort()
  const site = await startSite({ FILTRATE_DATA: path.join(workDir, "site"), PORT: String(port) })
  try {
    const answer = await fetch(`${site.url}/api/tables/patients`)
    const table = tableFromIPC(new Uint8Array(await answer.arrayBuffer()))
    const publicId = String(table.getChild("public_id")?.get(0))
    await benchScreens({
      baseUrl: site.url,
      paths: {
        Month: "/",
        Measure: "/measures/bp-at-target",
        "Measure, diet sodium": "/measures/diet-sodium",
        Patients: "/patients",
        "Patients, its table": "/api/tables/patients",
        Patient: `/patients/${publicId}`,
        Imports: "/imports",
      },
      referencePath: "/nothing-here",
      commandPid: site.child.pid,
      runs: 30,
    })
  } finally {
    site.child.kill("SIGINT")
    await site.finished
  }
}
