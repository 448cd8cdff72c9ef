import "server-only"
import type { Caller } from "../access/caller"
import { roles as allRoles, type Role } from "../access/roles"
import { record } from "../store/audit"
import { actorOf, strangerActor } from "../store/audit-actors"
import type { PrismaClient } from "../store/generated/client"
import { isProviderAccount, keepProviderAccount } from "../store/provider-accounts"
import { beginSession, markProven } from "../store/sessions"
import type { Identity } from "./provider"
import type { ProviderSettings } from "./provider-settings"

export type ProviderAnswer =
  { status: "full" | "half"; token: string } | { status: "no-role" } | { status: "disabled" }

/**
 * Lets somebody in whom the provider vouches for. Their account is known by issuer and subject and by nothing else; its
 * name and roles are those of this sign-in. Who has no role here any more loses what they had; who is disabled stays so.
 */
export async function signInThroughProvider(
  client: PrismaClient,
  signIn: { identity: Identity; settings: ProviderSettings; agent: string; address: string; now: Date },
): Promise<ProviderAnswer> {
  const { identity, settings, agent, address, now } = signIn
  const { issuer, subject, claims } = identity
  const roles = rolesOf(settings, claims)
  const by = strangerActor(address === "" ? null : address)
  const wish = {
    issuer,
    subject,
    roles,
    name: textOf(claims.name),
    userName: textOf(claims.preferred_username),
  }
  const kept = await keepProviderAccount(client, { ...wish, by, now })
  if (!kept || kept.isDisabled || roles.length === 0) {
    const reason = kept?.isDisabled ? "disabled" : "no-role"
    const about = kept ? { object: "user", objectId: kept.userId } : {}
    await record(client, {
      ...{ by, action: "sign-in.fail", outcome: "refused", ...about },
      detail: { method: "provider", reason },
    })
    return { status: reason }
  }
  const stage = settings.factor === "ours" ? "factor" : "full"
  const { userId, name } = kept
  if (stage === "full")
    await record(client, {
      by: { ...by, actor: userId, actorName: name, roles },
      ...{ action: "sign-in", detail: { method: "provider" } },
    })
  const token = await beginSession(client, { userId, method: "provider", stage, agent, address, now })
  return { status: stage === "full" ? "full" : "half", token }
}

/** Somebody who is signed in has shown at the provider once more who they are; false when it was somebody else. */
export async function proveThroughProvider(
  client: PrismaClient,
  proof: { identity: Identity; caller: Caller; now: Date },
): Promise<boolean> {
  const { identity, caller, now } = proof
  const { issuer, subject } = identity
  const isSame =
    identity.proof?.userId === caller.userId &&
    (await isProviderAccount(client, { userId: caller.userId, issuer, subject }))
  if (isSame) await markProven(client, caller.session.id, now)
  const outcome = isSame ? "done" : "refused"
  const detail = { method: "provider" }
  await record(client, { by: actorOf(caller), action: "identity.prove", outcome, detail })
  return isSame
}

/** What came back from the provider did not hold; nothing that came with it is written down. */
export async function recordFailedReturn(client: PrismaClient, address: string): Promise<void> {
  await record(client, {
    ...{ by: strangerActor(address === "" ? null : address), action: "sign-in.fail", outcome: "refused" },
    detail: { method: "provider", reason: "answer" },
  })
}

/** The roles that the values of the claim give, in the order of the list of roles. */
export function rolesOf(settings: ProviderSettings, claims: Identity["claims"]): Role[] {
  const values = valuesOf(claims[settings.roleClaim] ?? within(claims, settings.roleClaim.split(".")))
  const given = new Set(values.flatMap((value) => settings.rolesByValue.get(value) ?? []))
  return allRoles.filter((role) => given.has(role))
}

function within(claim: unknown, steps: readonly string[]): unknown {
  const [step, ...rest] = steps
  if (step === undefined) return claim
  if (typeof claim !== "object" || claim === null || !Object.hasOwn(claim, step)) return undefined
  return within(Object.entries(claim).find(([name]) => name === step)?.[1], rest)
}

function valuesOf(claim: unknown): string[] {
  if (typeof claim === "string") return [claim]
  return Array.isArray(claim) ? claim.filter((value) => typeof value === "string") : []
}

function textOf(claim: unknown): string {
  return typeof claim === "string" ? claim : ""
}
