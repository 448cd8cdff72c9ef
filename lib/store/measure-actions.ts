import "server-only"
import { z } from "zod"
import type { Caller } from "../access/caller"
import {
  actionKinds,
  actionStates,
  inOrder,
  type ActionKind,
  type MeasureAction,
} from "../domain/measure-actions"
import { changeAndRecord } from "./audit"
import { actorOf } from "./audit-actors"
import type { PrismaClient } from "./generated/client"
import { namesSomebody } from "./names-somebody"
import { ownerAccount } from "./action-owners"

const Kind = z.enum(actionKinds)
const State = z.enum(actionStates)

/**
 * The decisions and actions of the meetings up to the month of `asOf`, as they stand now: the open first, by the day they
 * are due, then the closed, latest first. `measureId` narrows to one measure.
 */
export async function listActions(
  client: PrismaClient,
  asked: { asOf: string; measureId?: string },
): Promise<MeasureAction[]> {
  const rows = await client.measureAction.findMany({
    where: { month: { lte: asked.asOf.slice(0, 7) }, measureId: asked.measureId },
    orderBy: { id: "asc" },
  })
  return inOrder(
    rows.map(({ kind, state, dueOn, ...row }) => ({
      ...row,
      kind: Kind.parse(kind),
      state: State.parse(state),
      dueOn: dueOn?.toISOString().slice(0, 10) ?? null,
    })),
  )
}

/** What a person writes of one decision or action. */
export type NewAction = {
  measureId: string
  month: string
  kind: ActionKind
  text: string
  owner: string | null
  dueOn: string | null
}

/** Adds one to the log; a text that names a patient is refused, and the audit log has none of it. */
export async function addAction(
  client: PrismaClient,
  added: { action: NewAction; caller: Caller; now: Date },
): Promise<"added" | "names-person"> {
  const { action, caller, now } = added
  const { measureId, month, kind, text, owner } = action
  if (await namesSomebody(client, `${text} ${owner ?? ""}`)) return "names-person"
  const ownerId = owner === null ? null : await ownerAccount(client, { name: owner, isDemo: caller.isDemo })
  const dueOn = action.dueOn === null ? null : new Date(`${action.dueOn}T00:00:00Z`)
  await changeAndRecord(
    client,
    (transaction) =>
      transaction.measureAction.create({
        data: { measureId, month, kind, text, owner, ownerId, dueOn, madeBy: caller.name, madeAt: now },
      }),
    ({ id }) => ({
      ...{ by: actorOf(caller), action: "action.add", object: "measure action", objectId: String(id) },
      detail: { measure: measureId, month, kind, due: action.dueOn },
    }),
  )
  return "added"
}

/** Which one, as the person saw it: whoever changed it since is not overwritten. */
type Seen = { id: number; version: number; caller: Caller; now: Date }

/** Why it was not done: somebody changed it since, or it is not the person's to close. */
type NotDone = "outdated" | "not-theirs"

/** Ends one as done or dropped, with what came of it. */
export async function closeAction(
  client: PrismaClient,
  closed: Seen & { state: "done" | "dropped"; outcome: string | null },
): Promise<"closed" | NotDone | "names-person"> {
  const { id, version, caller, now, state, outcome } = closed
  if (outcome !== null && (await namesSomebody(client, outcome))) return "names-person"
  const { count } = await changeAndRecord(
    client,
    (transaction) =>
      transaction.measureAction.updateMany({
        where: { id, version, state: "open", ...closableBy(caller) },
        data: { state, outcome, closedBy: caller.name, closedAt: now, version: { increment: 1 } },
      }),
    (answer) =>
      answer.count === 0
        ? null
        : {
            ...{ by: actorOf(caller), action: "action.close", object: "measure action" },
            ...{ objectId: String(id), detail: { state } },
          },
  )
  return count === 1 ? "closed" : whyNot(client, { id, caller })
}

/** Opens one again that was done or dropped; what had come of it stays until it is closed anew. */
export async function reopenAction(client: PrismaClient, seen: Seen): Promise<"reopened" | NotDone> {
  const { id, version, caller } = seen
  const { count } = await changeAndRecord(
    client,
    (transaction) =>
      transaction.measureAction.updateMany({
        where: { id, version, state: { not: "open" }, ...closableBy(caller) },
        data: { state: "open", closedBy: null, closedAt: null, version: { increment: 1 } },
      }),
    (answer) =>
      answer.count === 0
        ? null
        : { by: actorOf(caller), action: "action.reopen", object: "measure action", objectId: String(id) },
  )
  return count === 1 ? "reopened" : whyNot(client, { id, caller })
}

/** Whether the person may close it: whose it is, or who leads the clinic. */
export function mayClose(caller: Caller, action: { ownerId: string | null }): boolean {
  return caller.roles.includes("clinic-lead") || action.ownerId === caller.userId
}

async function whyNot(client: PrismaClient, asked: { id: number; caller: Caller }): Promise<NotDone> {
  const action = await client.measureAction.findUnique({
    where: { id: asked.id },
    select: { ownerId: true },
  })
  return action !== null && !mayClose(asked.caller, action) ? "not-theirs" : "outdated"
}

function closableBy(caller: Caller) {
  return caller.roles.includes("clinic-lead") ? {} : { ownerId: caller.userId }
}
