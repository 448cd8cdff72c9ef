import "server-only"
import { record } from "./audit"
import { anchorAudit } from "./audit-anchors"
import type { Actor } from "./audit-actors"
import { faultSentence } from "./audit-faults"
import { verifyAudit, type AuditState } from "./audit-verify"
import type { PrismaClient } from "./generated/client"

/** Verifies the log, records what came of it, and notes the end of a log that is whole outside the database. */
export async function checkAudit(
  client: PrismaClient,
  check: { by: Actor; dataDir: string; now: Date },
): Promise<AuditState> {
  const { by, dataDir, now } = check
  const state = await verifyAudit(client, dataDir)
  const { entries, anchors, first } = state
  await record(client, {
    ...{ by, action: "audit.verify", outcome: first ? "failed" : "done" },
    detail: { entries, anchors, ...(first ? { fault: faultSentence(first) } : {}) },
  })
  if (!first) await anchorAudit(client, { dataDir, now })
  return state
}

export type LatestCheck = { at: Date; isWhole: boolean; entries: number; fault: string | null }

/** How the log was when it was last verified; null before that. */
export async function findLatestCheck(client: PrismaClient): Promise<LatestCheck | null> {
  const row = await client.auditEntry.findFirst({
    where: { action: "audit.verify" },
    orderBy: { seq: "desc" },
  })
  if (!row) return null
  const detail =
    typeof row.detail === "object" && row.detail !== null ? new Map(Object.entries(row.detail)) : null
  const fault = detail?.get("fault")
  return {
    ...{ at: row.at, isWhole: row.outcome === "done", entries: Number(detail?.get("entries") ?? 0) },
    fault: typeof fault === "string" ? fault : null,
  }
}
