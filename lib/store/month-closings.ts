import "server-only"
import { z } from "zod"
import { ClosedFigures } from "../domain/closed-figures"
import { KeptMapping, type ClosedMonth } from "../domain/closed-month"
import { Settings } from "../domain/settings"
import { TypedText } from "../domain/typed-text"
import { record } from "./audit"
import type { Actor } from "./audit-actors"
import { Prisma, type PrismaClient } from "./generated/client"

/** Why a month is opened again; asked for, kept, and so best without a name. */
export const ReopenReason = TypedText.trim().min(3).max(500)

/** What may be noted when a month is closed. */
export const ClosingNote = TypedText.trim().max(500)

/** One closing of a month, in force or taken back. */
export type MonthClosing = ClosedMonth & {
  note: string
  reopenedAt: Date | null
  reopenedBy: string | null
  reopenReason: string | null
}

type Client = PrismaClient | Prisma.TransactionClient

/** Every closing there was, the latest first. */
export async function listClosings(client: Client): Promise<MonthClosing[]> {
  const rows = await client.monthClosing.findMany({ orderBy: { id: "desc" } })
  return rows.map(({ asOf, settings, mappings, figures, closedById: _, ...row }) => ({
    ...row,
    asOf: asOf.toISOString().slice(0, 10),
    settings: Settings.parse(settings),
    mappings: z.array(KeptMapping).parse(mappings),
    figures: ClosedFigures.parse(figures),
  }))
}

/** Whoever closed a month or opened one again since an instant has made the figures old. */
export async function isClosingNewer(client: Client, since: Date): Promise<boolean> {
  const newer = await client.monthClosing.findFirst({
    where: { OR: [{ closedAt: { gt: since } }, { reopenedAt: { gt: since } }] },
    select: { id: true },
  })
  return newer !== null
}

/** Keeps a closing; false when the month is closed already, also by somebody at the same moment. */
export async function keepClosing(
  client: PrismaClient,
  closing: Pick<
    MonthClosing,
    "asOf" | "note" | "throughImport" | "timeZone" | "settings" | "definitions" | "figures"
  > & {
    by: Actor
    now: Date
  },
): Promise<boolean> {
  const { asOf, by, now, ...kept } = closing
  try {
    await client.$transaction(async (transaction) => {
      const mappings = await transaction.drugNameMapping.findMany({
        select: { text: true, ingredients: true, isIgnored: true },
        orderBy: { text: "asc" },
      })
      const { id } = await transaction.monthClosing.create({
        data: {
          ...kept,
          ...{ mappings, asOf: new Date(`${asOf}T00:00:00Z`), closedAt: now },
          ...{ closedBy: by.actorName, closedById: by.actor },
        },
      })
      await record(transaction, {
        ...{ by, action: "month.close", object: "closing", objectId: String(id) },
        detail: { on: asOf },
      })
    })
    return true
  } catch (cause) {
    if (cause instanceof Prisma.PrismaClientKnownRequestError && cause.code === "P2002") return false
    throw cause
  }
}

/** Opens a closed month again; false when it is not closed any more. */
export async function reopenMonth(
  client: PrismaClient,
  reopened: { id: number; reason: string; by: Actor; now: Date },
): Promise<boolean> {
  const { id, reason, by, now } = reopened
  return client.$transaction(async (transaction) => {
    const { count } = await transaction.monthClosing.updateMany({
      where: { id, reopenedAt: null },
      data: { reopenedAt: now, reopenedBy: by.actorName, reopenReason: reason },
    })
    if (count === 0) return false
    await record(transaction, {
      ...{ by, action: "month.reopen", object: "closing", objectId: String(id), purpose: reason },
    })
    return true
  })
}
