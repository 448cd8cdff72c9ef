import { rm } from "node:fs/promises"
import path from "node:path"
import { wholeClinic } from "../access/scope"
import { closedDir } from "../engine/closed-file"
import { askOn } from "../engine/run"
import { withinScope } from "../engine/scoped"
import { removeOlderSnapshots } from "../engine/snapshot"
import type { Environment } from "../env"
import { AppError } from "../errors"
import { refresh } from "../jobs/refresh"
import { isSnapshotStale } from "../jobs/snapshot-freshness"
import { closedMonths } from "../questions/closed-months"
import { drugTextsOfOne } from "../questions/drug-texts-of-one"
import { commandActor } from "../store/audit-actors"
import { connect } from "../store/connect"
import { erasePerson } from "../store/erase-person"
import { findErasure } from "../store/erasures"
import type { PrismaClient } from "../store/generated/client"
import { waitForTurn } from "../store/import-turn"
import { recordsOfPerson } from "../store/person-records"
import { scrubTables } from "../store/scrub"
import { siteKey } from "../store/secrets"
import { readSettings } from "../store/settings"
import { measuresOn } from "./measures"
import { say } from "./say"

type Run = {
  client: PrismaClient
  databaseUrl: string
  environment: Environment
  asked: { id: number; confirm: string | undefined }
}

/**
 * Carries out a request: the rows go in one transaction, with the figures of the closed months kept beside; then the files
 * that were built from them. Broken off in between, the same command goes on where it stopped.
 */
export async function carryOutErasure(run: Run): Promise<void> {
  const { client, databaseUrl, asked } = run
  const erasure = await findErasure(client, { id: asked.id })
  if (!erasure) throw new AppError("not-found", "There is no such request, or it was withdrawn.")
  if (erasure.clearedAt !== null) throw new AppError("bad-request", "This request was carried out before.")
  const turn = await connect(databaseUrl)
  try {
    await waitForTurn(turn, { waitMs: 60_000, onWait: async () => say("Waiting for an import to end") })
    if (erasure.erasedAt === null) await eraseRows(run, erasure.publicId)
    await clearFiles(run)
    await client.erasure.update({ where: { id: asked.id }, data: { clearedAt: new Date() } })
  } finally {
    await turn.end()
  }
}

async function eraseRows({ client, databaseUrl, environment, asked }: Run, publicId: string): Promise<void> {
  const { dataDir } = environment
  const patient = await client.patient.findUnique({ where: { publicId } })
  const records = patient === null ? [] : await recordsOfPerson(client, patient.patientId)
  if (!records.some((one) => one.patientId === asked.confirm))
    throw new AppError("bad-request", "--confirm takes the number of the patient of this request.")
  if ((await client.import.count({ where: { status: { in: ["asks", "waiting"] } } })) > 0)
    throw new AppError("bad-request", "An import waits for an answer. Accept or decline it first.")
  const now = new Date()
  if (await isSnapshotStale({ client, dataDir, now }))
    await refresh({ databaseUrl, dataDir, onProgress: say })
  say("Keeping the figures of the closed months")
  const kept = await withinScope(wholeClinic, async (connection) => {
    const months = []
    for (const { as_of: asOf } of await askOn(connection, closedMonths))
      months.push({ asOf, figures: await measuresOn(connection, asOf) })
    const texts = await askOn(connection, drugTextsOfOne, { record_id: patient?.patientId ?? "" })
    return { months, drugTexts: texts.map((one) => one.normalised) }
  })
  say("Erasing the rows")
  const settings = await readSettings(client)
  const about = { erasureId: asked.id, records, settings, key: siteKey(dataDir), by: commandActor(), now }
  await erasePerson(client, { ...about, ...kept })
}

/** What was built from the rows, or still holds them unread: snapshots, uploads, the demo's own extract. */
async function clearFiles({ databaseUrl, environment }: Run): Promise<void> {
  const { dataDir } = environment
  // The closed months are computed again without the person; the counts kept when they were closed go on speaking.
  await rm(closedDir(dataDir), { recursive: true, force: true })
  await refresh({ databaseUrl, dataDir, onProgress: say })
  await removeOlderSnapshots(dataDir)
  for (const folder of ["uploads", "demo", "import-spool"])
    await rm(path.join(dataDir, folder), { recursive: true, force: true })
  say("Rewriting the tables")
  await scrubTables({ databaseUrl, isOwnServer: environment.databaseUrl === undefined })
}
