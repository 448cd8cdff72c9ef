import "server-only"
import { roles, roleWords, type Role } from "../access/roles"
import type { PrismaClient } from "./generated/client"

type Invented = { name: string; staffId: string | null }

/** Those who treat are of the demo clinic's own staff list. */
const invented: Readonly<Record<Role, Invented>> = {
  "clinic-lead": { name: "Ingrid Sollie", staffId: null },
  "care-coordinator": { name: "Rashida Adeyinka", staffId: "S-21" },
  nephrologist: { name: "Dr Ines Castellan", staffId: "S-01" },
  dietitian: { name: "Hana Sokol", staffId: "S-11" },
  nurse: { name: "Noor Haddad", staffId: "S-31" },
  administrator: { name: "Ruth Calloway", staffId: null },
  auditor: { name: "Piet Hanekom", staffId: null },
}

/** Whether the clinic is the invented one and holds nothing else: no extract but the demo's own was ever stored in it. */
export async function isDemoOnly(client: PrismaClient): Promise<boolean> {
  const [clinic, real] = await Promise.all([
    client.clinic.findUnique({ where: { id: 1 } }),
    client.import.findFirst({
      where: { isDemo: false, enteredBy: null, status: "done" },
      select: { id: true },
    }),
  ])
  return clinic?.isDemo === true && real === null
}

/** One invented person for each role, who signs in with a click; made for a demo clinic, and for none other. */
export async function ensurePersonas(client: PrismaClient): Promise<void> {
  if (!(await isDemoOnly(client))) return
  const people = roles.map((role) => ({
    userName: `demo-${role}`,
    ...invented[role],
    roles: [role],
    grants: [],
    sites: [],
    isDemo: true,
  }))
  await client.user.createMany({ data: people, skipDuplicates: true })
}

export type Persona = { userId: string; name: string; role: string }

/** The people one may be with a click; none as soon as the clinic holds an extract of its own. */
export async function demoPersonas(client: PrismaClient): Promise<Persona[]> {
  if (!(await isDemoOnly(client))) return []
  const users = await client.user.findMany({ where: { isDemo: true, disabledAt: null } })
  return roles.flatMap((role) => {
    const user = users.find((one) => one.roles.includes(role))
    return user ? [{ userId: user.id, name: user.name, role: roleWords[role] }] : []
  })
}
