import { existsSync, mkdirSync, writeFileSync } from "node:fs"
import path from "node:path"
import { afterAll, beforeAll, expect, test } from "vitest"
import { findTrial, startTrial } from "../../../lib/jobs/import-trial"
import { openFolder } from "../../helpers/extract"
import { openStore, type TestStore } from "../../helpers/open-store"
import { waitUntil } from "../../helpers/wait-until"

const folder = openFolder()
let store: TestStore

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { name: "Test clinic", timeZone: "America/Chicago" } })
})
afterAll(async () => {
  await store.close()
  folder.close()
})

const columns = "patient_id,birth_date,sex,registered_on"

async function tried(name: string, files: Record<string, string>) {
  const uploadPath = path.join(folder.dir, name)
  mkdirSync(uploadPath)
  for (const [file, text] of Object.entries(files)) writeFileSync(path.join(uploadPath, file), text)
  const site = { importUrl: store.url, dataDir: folder.dir }
  const id = startTrial(site, { uploadPath, source: name, isFull: false, now: new Date() })
  expect(findTrial(id)).toMatchObject({ status: "running", source: name })
  const trial = await waitUntil("the trial's end", () => {
    const found = findTrial(id)
    return found && found.status !== "running" ? found : null
  })
  await waitUntil("the upload's removal", () => !existsSync(uploadPath))
  return trial
}

test("a trial counts and names the first problems, and stores nothing", async () => {
  const trial = await tried("good", {
    "patients.csv": `${columns}\nP1,1960-05-01,female,2020-01-01\nP2,1960-02-31,male,2020-01-01\n`,
  })

  expect(trial).toMatchObject({
    status: "done",
    outcome: {
      question: null,
      files: [{ file: "patients.csv", dataRows: 2, added: 1, rejected: 1 }],
      firstProblems: [{ file: "patients.csv", line: 3, column: "birth_date" }],
    },
  })
  expect(await store.prisma.patientRecord.count()).toBe(0)
  expect(await store.prisma.import.count()).toBe(0)
})

test("a trial of what is no extract says why", async () => {
  const trial = await tried("letters", { "letter.csv": "dear\n" })

  expect(trial.status).toBe("failed")
  expect(trial.status === "failed" && trial.message).toMatch(/patients\.csv|none of/)
})

test("a trial that nobody started is not found", () => {
  expect(findTrial("nobody")).toBeNull()
})

test("while two run a third is refused, and nothing of it stays", async () => {
  const site = { importUrl: store.url, dataDir: folder.dir }
  const begin = (name: string) => {
    const uploadPath = path.join(folder.dir, name)
    mkdirSync(uploadPath)
    writeFileSync(path.join(uploadPath, "patients.csv"), `${columns}\n`)
    return startTrial(site, { uploadPath, source: name, isFull: false, now: new Date() })
  }
  const ids = [begin("first"), begin("second")]

  expect(() => begin("third")).toThrow(/under way/)

  await waitUntil("the refused upload's removal", () => !existsSync(path.join(folder.dir, "third")))
  await waitUntil("both trials' end", () => ids.every((id) => findTrial(id)?.status !== "running"))
})

test("only the latest trials are kept", async () => {
  const kept = (globalThis.filtrateTrials ??= new Map())
  for (let n = 0; n < 60; n += 1)
    kept.set(`old ${n}`, { source: "old", startedAt: new Date(), status: "failed", message: "ended" })

  await tried("latest", { "patients.csv": `${columns}\n` })

  expect(kept.size).toBe(50)
  expect(kept.has("old 59")).toBe(true)
  expect(kept.has("old 0")).toBe(false)
})
