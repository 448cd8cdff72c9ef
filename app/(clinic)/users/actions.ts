"use server"

import { headers } from "next/headers"
import { revalidatePath } from "next/cache"
import { z } from "zod"
import { grantable } from "../../../lib/access/permissions"
import { roles } from "../../../lib/access/roles"
import { linkAddress } from "../../../lib/auth/setup-link"
import { TypedText } from "../../../lib/domain/typed-text"
import { readEnvironment } from "../../../lib/env"
import { PersonName, UserName } from "../../../lib/store/accounts"
import { actorOf } from "../../../lib/store/audit-actors"
import { store } from "../../../lib/store/client"
import { takeFactorAway } from "../../../lib/store/provider-accounts"
import { changeUser, inviteUser, makeUserLink, setDisabled, type UserAnswer } from "../../../lib/store/users"
import { requireProven } from "../../_http/prove"
import { formField } from "../../_http/form-field"
import { requireScreenUser } from "../../_http/require-user"
import { assertSameOrigin } from "../../_http/same-origin"

export type UsersState = { problem: string | null; link: string | null }

const Sites = TypedText.max(1000).transform(listOf)

const Shape = z.object({
  name: PersonName,
  roles: z.array(z.enum(roles)).min(1),
  grants: z.array(z.enum(grantable)),
  staffId: TypedText.trim()
    .max(64)
    .transform((text) => (text === "" ? null : text)),
  sites: Sites,
})

const Which = z.object({
  id: z.uuid(),
  version: z.coerce
    .number()
    .int()
    .max(2 ** 31 - 1)
    .min(0),
})
const Reason = TypedText.trim().min(3).max(300)

const problems: Readonly<Record<Exclude<UserAnswer, "done">, string>> = {
  taken: "This user name is taken.",
  outdated: "The account was changed meanwhile. The page shows it as it is now.",
  "last-administrator": "The last administrator who can sign in keeps the role.",
}

/** Makes an account; the link for its first password shows once. */
export async function invite(_before: UsersState, form: FormData): Promise<UsersState> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("users.manage")
  requireProven(caller, "users")
  const userName = UserName.safeParse(form.get("userName"))
  const shape = shapeOf(form)
  if (!userName.success)
    return failed("A user name has 2 to 64 letters, digits, dots, hyphens or underscores.")
  if (!shape.success) return failed("A name and at least one role are needed.")
  const about = { userName: userName.data, shape: shape.data, by: actorOf(caller), now: new Date() }
  const answer = await inviteUser(store(), about)
  if (answer.status === "taken") return failed(problems.taken)
  revalidatePath("/users")
  return { problem: null, link: await addressOf(answer.token) }
}

/** Changes what somebody is and may, with a reason. */
export async function change(_before: UsersState, form: FormData): Promise<UsersState> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("users.manage")
  requireProven(caller, "users")
  const which = formField(Which, { id: form.get("id"), version: form.get("version") })
  const shape = shapeOf(form)
  const reason = Reason.safeParse(form.get("reason"))
  if (!shape.success) return failed("A name and at least one role are needed.")
  if (!reason.success) return failed("A change needs a reason.")
  const about = { ...which, shape: shape.data, reason: reason.data, by: actorOf(caller), now: new Date() }
  return told(await changeUser(store(), about))
}

/** Disables an account, or lets it in again. */
export async function disable(_before: UsersState, form: FormData): Promise<UsersState> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("users.manage")
  requireProven(caller, "users")
  const which = formField(Which, { id: form.get("id"), version: form.get("version") })
  const isDisabled = form.get("to") === "disabled"
  return told(await setDisabled(store(), { ...which, isDisabled, by: actorOf(caller), now: new Date() }))
}

/** Makes a link for a new password, or for that and a new second factor. */
export async function makeReset(_before: UsersState, form: FormData): Promise<UsersState> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("users.manage")
  requireProven(caller, "users")
  const id = formField(z.uuid(), form.get("id"))
  const purpose = formField(z.enum(["reset", "reset-factor", "invitation"]), form.get("purpose"))
  const token = await makeUserLink(store(), { id, purpose, by: actorOf(caller), now: new Date() })
  return token === null
    ? failed("This account takes no link: it is disabled, or signs in through the clinic's provider.")
    : { problem: null, link: await addressOf(token) }
}

/** Takes a lost second factor from an account of the clinic's provider; the next sign-in sets up another. */
export async function takeFactor(_before: UsersState, form: FormData): Promise<UsersState> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("users.manage")
  requireProven(caller, "users")
  const id = formField(z.uuid(), form.get("id"))
  const isTaken = await takeFactorAway(store(), { id, by: actorOf(caller), now: new Date() })
  return told(isTaken ? "done" : "outdated")
}

function shapeOf(form: FormData) {
  return Shape.safeParse({
    ...{ name: form.get("name"), roles: form.getAll("roles"), grants: form.getAll("grants") },
    ...{ staffId: form.get("staffId") ?? "", sites: form.get("sites") ?? "" },
  })
}

/** The request has been found to come from a page of this site, so that its host is the site's. */
async function addressOf(token: string): Promise<string> {
  const host = (await headers()).get("host") ?? "localhost"
  return linkAddress(readEnvironment().origin ?? `http://${host}`, token)
}

function told(answer: UserAnswer): UsersState {
  revalidatePath("/users")
  return answer === "done" ? { problem: null, link: null } : failed(problems[answer])
}

function failed(problem: string): UsersState {
  return { problem, link: null }
}

function listOf(text: string): string[] {
  return [...new Set(text.split(",").map((one) => one.trim()))].filter((one) => one !== "")
}
