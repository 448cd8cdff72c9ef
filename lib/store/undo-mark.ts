import "server-only"
import type { Caller } from "../access/caller"
import { changeAndRecord } from "./audit"
import type { AuditAction } from "./audit-actions"
import { actorOf } from "./audit-actors"
import type { Prisma, PrismaClient } from "./generated/client"

/**
 * Takes back something somebody put on a chart, in the log under its number; false when there is none to take. `undo` marks
 * the rows that still stand, with when and by whom.
 */
export async function undoMark(
  client: PrismaClient,
  mark: {
    id: number
    action: AuditAction
    object: string
    caller: Caller
    now: Date
    undo: (
      transaction: Prisma.TransactionClient,
      rows: { where: { id: number; undoneAt: null }; data: { undoneAt: Date; undoneBy: string } },
    ) => Promise<{ count: number }>
  },
): Promise<boolean> {
  const { id, action, object, caller, now, undo } = mark
  const rows = { where: { id, undoneAt: null }, data: { undoneAt: now, undoneBy: caller.name } }
  const { count } = await changeAndRecord(
    client,
    (transaction) => undo(transaction, rows),
    (answer) => (answer.count === 0 ? null : { by: actorOf(caller), action, object, objectId: String(id) }),
  )
  return count === 1
}
