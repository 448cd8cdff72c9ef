import { rmSync } from "node:fs"
import path from "node:path"
import { wholeClinic } from "../../lib/access/scope"
import { closedDir } from "../../lib/engine/closed-file"
import { askFigures } from "../../lib/engine/figures-of"
import { withinScope } from "../../lib/engine/scoped"
import { snapshotDir } from "../../lib/engine/snapshot"
import { snapshotMeta } from "../../lib/engine/snapshot-meta"
import { runImport } from "../../lib/import/run"
import { closeMonth } from "../../lib/jobs/close-month"
import { refresh } from "../../lib/jobs/refresh"
import { commandActor } from "../../lib/store/audit-actors"
import { saveSettings } from "../../lib/store/settings"
import { writeExtract, type ExtractFiles } from "./extract"
import { openStore } from "./open-store"
import { temporaryFolder } from "./temporary-folder"

/** The month that is closed; its last day is the last day with data. */
export const closedDay = "2026-01-31"

/**
 * Six people with chronic kidney disease in January 2026. P1 and P2 are at target, P3 and P4 above it, P5 and P6 were not
 * measured; P1 and P2 wrote down what they ate. P4 takes a drug no list has.
 */
export const january: ExtractFiles = {
  staff: ["staff_id,name,role,site", "S-1,Dr A,nephrologist,North", "S-2,Dr B,nephrologist,South"],
  patients: [
    "patient_id,given_name,family_name,birth_date,sex,clinician_id,site,registered_on",
    ...[1, 2, 3, 4, 5, 6].map(
      (n) => `P${n},Plain,Person ${n},1960-06-15,male,${n % 2 === 1 ? "S-1,North" : "S-2,South"},2024-01-01`,
    ),
  ],
  visits: [
    "visit_id,patient_id,started_on,kind",
    ...[1, 2, 3, 4, 5, 6].map((n) => `V${n},P${n},2026-01-12,office`),
    "V9,P1,2026-01-31,office",
  ],
  problems: [
    "problem_id,patient_id,code,onset_on",
    ...[1, 2, 3, 4, 5, 6].map((n) => `K${n},P${n},N18.3,2025-01-12`),
  ],
  readings: [
    "reading_id,patient_id,taken_at,systolic,diastolic,setting",
    "R1,P1,2026-01-12,118,70,office",
    "R2,P2,2026-01-12,126,74,office",
    "R3,P3,2026-01-12,150,80,office",
    "R4,P4,2026-01-12,160,90,office",
  ],
  medications: ["order_id,patient_id,drug,started_on", "M4,P4,zzcustom,2025-06-10"],
  diet: [
    "diet_id,patient_id,recorded_on,method,sodium_mg",
    "D1,P1,2026-01-10,recall_24h,2000",
    "D2,P2,2026-01-11,recall_24h,3001",
  ],
}

/** A clinic of its own with the January above, in a real record store, with a snapshot. */
export async function openClosingClinic() {
  const store = await openStore()
  const scratch = temporaryFolder()
  const dataDir = path.join(scratch.folder, "data")
  const place = { databaseUrl: store.url, dataDir }
  process.env.FILTRATE_DATA = dataDir
  await store.prisma.clinic.create({ data: { id: 1, name: "Test clinic", timeZone: "UTC" } })
  const rebuild = () => refresh(place)
  const bringIn = async (files: ExtractFiles) => {
    const location = writeExtract(scratch.folder, files)
    await runImport({
      ...{ ...place, location, isFull: false, isDryRun: false, isAccepted: true },
      ...{ timeZone: "UTC", now: new Date(), say: () => {} },
    })
  }
  await bringIn(january)
  await rebuild()
  return {
    store,
    dataDir,
    rebuild,
    bringIn,
    figures: () => withinScope(wholeClinic, (connection) => askFigures(connection, closedDay)),
    closeJanuary: async (by = commandActor()) => {
      const { builtAt } = await snapshotMeta(wholeClinic)
      const about = { client: store.prisma, dataDir, by, now: new Date() }
      return closeMonth({ ...about, asOf: closedDay, builtAt, note: "" })
    },
    set: (texts: Parameters<typeof saveSettings>[1]["texts"]) =>
      saveSettings(store.prisma, { texts, by: commandActor(), reason: "a test", now: new Date() }),
    wipe: () => {
      for (const folder of [snapshotDir(dataDir), closedDir(dataDir)])
        rmSync(folder, { recursive: true, force: true })
    },
    close: async () => {
      delete process.env.FILTRATE_DATA
      await store.close()
      scratch.remove()
    },
  }
}

export type ClosingClinic = Awaited<ReturnType<typeof openClosingClinic>>
