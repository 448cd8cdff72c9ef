import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest"
import type { Caller } from "../../../lib/access/caller"
import { listOwners } from "../../../lib/store/action-owners"
import {
  addAction,
  closeAction,
  listActions,
  mayClose,
  reopenAction,
  type NewAction,
} from "../../../lib/store/measure-actions"
import { importExtract, openFolder } from "../../helpers/extract"
import { openStore, type TestStore } from "../../helpers/open-store"

const folder = openFolder()
const now = new Date("2026-10-31T10:00:00Z")
let store: TestStore
let lead: Caller
let nurse: Caller
let dietitian: Caller

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { name: "Test clinic", timeZone: "UTC" } })
  lead = await callerFor("Ingrid Sollie", "clinic-lead")
  nurse = await callerFor("Noor Haddad", "nurse")
  dietitian = await callerFor("Hana Sokol", "dietitian")
  await callerFor("Ann Audit", "auditor")
})

beforeEach(() => store.client.query("truncate measure_actions"))

afterAll(async () => {
  await store.close()
  folder.close()
})

async function callerFor(name: string, role: string): Promise<Caller> {
  const user = await store.prisma.user.create({ data: { userName: role, name, roles: [role] } })
  const at = { createdAt: now, lastSeenAt: now, endsAt: now, provenAt: now }
  return { ...user, userId: user.id, session: { id: "00", method: "password", address: "", ...at } }
}

const order: NewAction = {
  ...{ measureId: "acr-tested", month: "2026-10", kind: "action", text: "Order the urine at check-in" },
  ...{ owner: "Noor Haddad", dueOn: "2026-11-20" },
}

async function added(more: Partial<NewAction> = {}) {
  const answer = await addAction(store.prisma, { action: { ...order, ...more }, caller: lead, now })
  const { id } = await store.prisma.measureAction.findFirstOrThrow({ orderBy: { id: "desc" } })
  return { answer, id }
}

const listed = () => listActions(store.prisma, { asOf: "2026-10-31" })

async function entriesOf(action: string) {
  return store.prisma.auditEntry.findMany({ where: { action }, orderBy: { seq: "desc" } })
}

describe("what a meeting writes down", () => {
  test("stands with who, until when, and by whom it was written", async () => {
    await added()

    expect(await listed()).toMatchObject([
      { ...order, ownerId: nurse.userId, state: "open", madeBy: "Ingrid Sollie", madeAt: now, version: 1 },
    ])
  })

  test("is not listed for an earlier month, nor with another measure", async () => {
    await added()
    await added({ measureId: "diet-sodium", month: "2026-09" })

    const september = await listActions(store.prisma, { asOf: "2026-09-30" })
    const acr = await listActions(store.prisma, { asOf: "2026-10-31", measureId: "acr-tested" })
    expect(september.map((one) => one.measureId)).toEqual(["diet-sodium"])
    expect(acr.map((one) => one.measureId)).toEqual(["acr-tested"])
  })

  test("belongs to an account only when exactly one has the name", async () => {
    await added({ owner: "noor haddad" })
    await added({ owner: "the nurses" })
    await added({ kind: "decision", owner: null, dueOn: null })

    const owners = (await listed()).map((one) => one.ownerId)
    expect(owners.sort()).toEqual([nurse.userId, null, null].sort())
  })

  test("can be given to whoever sees figures, and no auditor", async () => {
    expect(await listOwners(store.prisma, { isDemo: false })).toEqual([
      "Hana Sokol",
      "Ingrid Sollie",
      "Noor Haddad",
    ])
    expect(await listOwners(store.prisma, { isDemo: true })).toEqual([])
  })

  test("is refused where it names a patient, in its text, its owner or its outcome", async () => {
    await importExtract(store, folder.dir, {
      patients: [
        "patient_id,given_name,family_name,birth_date,sex,registered_on",
        "ACT-4711,Zora,Quillon,1960-05-01,female,2020-01-01",
      ],
    })

    const { id } = await added()
    const outcome = "seen, act-4711 came"
    const seen = { id, version: 1, caller: lead, now }
    expect(await closeAction(store.prisma, { ...seen, state: "done", outcome })).toBe("names-person")
    expect(await listed()).toMatchObject([{ state: "open", outcome: null }])
    expect((await added({ text: "Call Quillon Zora" })).answer).toBe("names-person")
    expect((await added({ owner: "Zora Quillon" })).answer).toBe("names-person")
    expect(await listed()).toHaveLength(1)
  })

  test("leaves in the audit log which and when, and none of its words", async () => {
    const { id } = await added()
    const seen = { id, caller: nurse, now }
    await closeAction(store.prisma, { ...seen, version: 1, state: "done", outcome: "All desks do it" })
    await reopenAction(store.prisma, { ...seen, version: 2 })

    const [add] = await entriesOf("action.add")
    const [close] = await entriesOf("action.close")
    const [reopen] = await entriesOf("action.reopen")
    expect(add).toMatchObject({
      ...{ actor: lead.userId, objectId: String(id), purpose: null },
      detail: { measure: "acr-tested", month: "2026-10", kind: "action", due: "2026-11-20" },
    })
    expect(close).toMatchObject({ actor: nurse.userId, objectId: String(id), detail: { state: "done" } })
    expect(reopen).toMatchObject({ actor: nurse.userId, objectId: String(id) })
    const words = JSON.stringify([add, close, reopen], (_, value: unknown) =>
      typeof value === "bigint" ? String(value) : value,
    )
    expect(words).not.toMatch(/urine|desks/)
  })
})

describe("closing", () => {
  test("is for whose it is and for a clinic lead", async () => {
    const { id } = await added()
    const close = (caller: Caller, version: number) =>
      closeAction(store.prisma, { id, version, caller, now, state: "dropped", outcome: null })

    expect(await close(dietitian, 1)).toBe("not-theirs")
    expect(await close(nurse, 1)).toBe("closed")
    expect(await reopenAction(store.prisma, { id, version: 2, caller: dietitian, now })).toBe("not-theirs")
    expect(await reopenAction(store.prisma, { id, version: 2, caller: lead, now })).toBe("reopened")
    expect(await close(lead, 3)).toBe("closed")
    const one = { ownerId: nurse.userId }
    expect([nurse, lead, dietitian].map((who) => mayClose(who, one))).toEqual([true, true, false])
    expect(mayClose(nurse, { ownerId: null })).toBe(false)
  })

  test("tells the later of two who saw the same, and keeps what the first wrote", async () => {
    const { id } = await added()
    const seen = { id, version: 1, now }

    const answers = await Promise.all([
      closeAction(store.prisma, { ...seen, caller: nurse, state: "done", outcome: "Done by the nurse" }),
      closeAction(store.prisma, { ...seen, caller: lead, state: "dropped", outcome: "Given up" }),
    ])

    expect(answers.toSorted()).toEqual(["closed", "outdated"])
    const [one] = await listed()
    expect(one?.outcome).toBe(answers[0] === "closed" ? "Done by the nurse" : "Given up")
    expect(one?.version).toBe(2)
  })

  test("of a version that never was is too late, up to the highest number", async () => {
    const { id } = await added()
    const never = { id, version: 2_147_483_647, caller: lead, now }

    expect(await closeAction(store.prisma, { ...never, state: "done", outcome: null })).toBe("outdated")
    expect(await reopenAction(store.prisma, never)).toBe("outdated")
  })

  test("is undone by opening it again, with what had come of it", async () => {
    const { id } = await added()
    const seen = { id, caller: lead, now }
    await closeAction(store.prisma, { ...seen, version: 1, state: "done", outcome: "All desks do it" })

    expect(await reopenAction(store.prisma, { ...seen, version: 2 })).toBe("reopened")
    expect(await reopenAction(store.prisma, { ...seen, version: 3 })).toBe("outdated")
    expect(await listed()).toMatchObject([
      { state: "open", closedAt: null, closedBy: null, outcome: "All desks do it", version: 3 },
    ])
  })
})

test("the record store refuses what is neither decision nor action, and an action of nobody", async () => {
  const row = (kind: string, owner: string | null, due: string | null) =>
    store.client.query(
      `insert into measure_actions (measure_id, month, kind, text, owner, due_on, made_by, made_at)
       values ('acr-tested', '2026-10', $1, 'x', $2, $3, 'Lead', now())`,
      [kind, owner, due],
    )

  await expect(row("wish", "Nurses", null)).rejects.toThrow(/measure_actions_kind/)
  await expect(row("action", null, null)).rejects.toThrow(/measure_actions_owner/)
  await expect(row("decision", null, "2026-11-01")).rejects.toThrow(/measure_actions_due/)
})
