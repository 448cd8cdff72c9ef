import "server-only"
import { z } from "zod"
import { KeptCase, type OutreachCase } from "../domain/outreach-case"
import type { Prisma } from "./generated/client"

/** The latest line as it is told to whoever saw the case before it: who did what, and when. `byId` is null for a look. */
export type LastLine = { kind: string; byId: string | null; byName: string; at: Date }

/** What a person did last, with the case before and after. */
export type KeptAct = { by: string; on: string; kind: string; before: OutreachCase; after: OutreachCase }

const Life = z.object({ before: KeptCase, after: KeptCase })

/** The latest line of a case's history; `act` only where a person did it. */
export async function lastLine(transaction: Prisma.TransactionClient, caseId: number) {
  const line = await transaction.outreachEvent.findFirst({ where: { caseId }, orderBy: { id: "desc" } })
  if (!line) return null
  const { id, kind, byId, byName, at, onDay } = line
  const life = Life.safeParse(line.life)
  const act: KeptAct | null =
    byId === null || !life.success
      ? null
      : { by: byId, on: onDay.toISOString().slice(0, 10), kind, ...life.data }
  const told: LastLine = { kind, byId, byName, at }
  return { id, act, told }
}
