import { existsSync, mkdirSync, writeFileSync } from "node:fs"
import path from "node:path"
import { setTimeout as delay } from "node:timers/promises"
import { afterAll, beforeAll, expect, test } from "vitest"
import {
  acceptImport,
  newUploadPath,
  refuseImport,
  startUploadedImport,
} from "../../../lib/jobs/import-upload"
import { commandActor } from "../../../lib/store/audit-actors"
import { findImport, type ImportEntry } from "../../../lib/store/imports"
import { openFolder } from "../../helpers/extract"
import { inForce } from "../../helpers/ledger-rows"
import { openStore, type TestStore } from "../../helpers/open-store"
import { zipOf } from "../../helpers/zip"

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

const by = commandActor()
const patients = "patient_id,birth_date,sex,registered_on\nP1,1960-05-01,female,2020-01-01\n"
const badPatients = `patient_id,birth_date,sex,registered_on\n${"P1,?,female,2020-01-01\n".repeat(20)}`

function site() {
  return { client: store.prisma, importUrl: store.url, dataDir: folder.dir }
}

async function upload(entries: Record<string, string>) {
  const uploadPath = await newUploadPath(folder.dir)
  writeFileSync(uploadPath, await zipOf(entries))
  return { uploadPath, source: "extract.zip", isFull: false, totalBytes: 100, by, now: new Date() }
}

async function whenOver(id: number): Promise<ImportEntry> {
  for (;;) {
    const entry = await findImport(store.prisma, id)
    if (entry && entry.status !== "waiting" && entry.status !== "running") return entry
    await delay(50)
  }
}

async function untilGone(file: string): Promise<void> {
  while (existsSync(file)) await delay(50)
}

test("an upload is imported by a process of its own and removed afterwards", async () => {
  const sent = await upload({ "patients.csv": patients })
  const id = await startUploadedImport(site(), sent)
  const entry = await whenOver(id)

  expect(entry).toMatchObject({ status: "done", source: "extract.zip", files: [{ added: 1 }] })
  expect(await inForce(store, "patients")).toHaveLength(1)
  await untilGone(sent.uploadPath)
})

test("a folder of files is imported as well", async () => {
  const zipPath = await newUploadPath(folder.dir)
  const uploadPath = zipPath.replace(/\.zip$/, "")
  mkdirSync(uploadPath)
  writeFileSync(path.join(uploadPath, "patients.csv"), patients)
  const id = await startUploadedImport(site(), {
    ...{ uploadPath, source: "patients.csv", isFull: false, totalBytes: patients.length, by },
    now: new Date(),
  })

  expect(await whenOver(id)).toMatchObject({ status: "done", files: [{ unchanged: 1 }] })
  await untilGone(uploadPath)
})

test("an upload that asks is kept until a person says go on", async () => {
  const sent = await upload({ "patients.csv": badPatients })
  const id = await startUploadedImport(site(), sent)
  expect(await whenOver(id)).toMatchObject({ status: "asks", canBeAccepted: true })
  expect(existsSync(sent.uploadPath)).toBe(true)

  await acceptImport(site(), { id, by })
  expect(await findImport(store.prisma, id)).toMatchObject({ status: "waiting", canBeAccepted: false })
  await expect(acceptImport(site(), { id, by })).rejects.toMatchObject({ code: "not-found" })
  while ((await findImport(store.prisma, id))?.status !== "done") await delay(50)
  await untilGone(sent.uploadPath)
  await expect(acceptImport(site(), { id, by })).rejects.toMatchObject({ code: "not-found" })
})

test("or decides against it", async () => {
  const sent = await upload({ "patients.csv": badPatients })
  const id = await startUploadedImport(site(), sent)
  await whenOver(id)

  await refuseImport(site(), { id, by })
  expect(await findImport(store.prisma, id)).toMatchObject({ status: "refused" })
  await untilGone(sent.uploadPath)
  await expect(refuseImport(site(), { id, by })).rejects.toMatchObject({ code: "not-found" })
})

test("who sends, accepts and declines is in the audit log, and what was stored beside it", async () => {
  const entries = await store.prisma.auditEntry.findMany({
    where: { action: { startsWith: "import." } },
    orderBy: { seq: "asc" },
  })

  expect(entries.map(({ action, objectId }) => `${action} ${objectId}`)).toEqual([
    ...["import.start 1", "import.store 1", "import.start 2", "import.store 2"],
    ...["import.start 3", "import.accept 3", "import.store 3"],
    ...["import.start 4", "import.decline 4"],
  ])
  expect(entries[1]).toMatchObject({ origin: "command", detail: { added: 1, withdrawn: 0, rejected: 0 } })
})

test("an upload that is no extract is refused, on record, and removed", async () => {
  const sent = await upload({ "lab.csv": "x" })
  const id = await startUploadedImport(site(), sent)

  expect(await whenOver(id)).toMatchObject({
    status: "refused",
    message: expect.stringContaining("None of the files"),
  })
  await untilGone(sent.uploadPath)
})

test("while ten are under way another is refused, and its file goes", async () => {
  const waiting = { source: "other.zip", status: "waiting", asOf: new Date("2026-01-01T00:00:00Z") }
  await store.prisma.import.createMany({ data: Array.from({ length: 10 }, () => waiting) })
  const sent = await upload({ "patients.csv": patients })

  await expect(startUploadedImport(site(), sent)).rejects.toThrow(/under way/)

  expect(existsSync(sent.uploadPath)).toBe(false)
  await store.prisma.import.deleteMany({ where: { source: "other.zip" } })
})
