"use server"

import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { z } from "zod"
import { passwordProblem } from "../../../../lib/auth/password-rules"
import { useLink } from "../../../../lib/auth/use-link"
import { readEnvironment } from "../../../../lib/env"
import { findAccount, PersonName, UserName } from "../../../../lib/store/accounts"
import { store } from "../../../../lib/store/client"
import { findLink, type OneTimeLink } from "../../../../lib/store/one-time-links"
import { clientAddress } from "../../../_http/client-address"
import { formField } from "../../../_http/form-field"
import { assertSameOrigin } from "../../../_http/same-origin"
import { writeSessionCookie } from "../../../_http/session-cookie"

const Token = z.string().max(100)
const Password = z.string().max(1000)

export type LinkState = { problem: string | null; name: string; userName: string }

type Newcomer = { name: string; userName: string; isLead: boolean }

/** Uses a one-time link, once everything that was typed can be used. */
export async function usePasswordLink(_before: LinkState, form: FormData): Promise<LinkState> {
  const sent = await headers()
  assertSameOrigin(sent)
  const token = formField(Token, form.get("token"))
  const password = Password.safeParse(form.get("password"))
  const kept = { name: String(form.get("name") ?? ""), userName: String(form.get("userName") ?? "") }
  const again = (problem: string) => ({ problem, ...kept })
  const now = new Date()
  const link = await findLink(store(), { token, now })
  if (!link) return again("This link is good for nothing any more.")
  if (!password.success) return again("A password has at most 128 characters.")
  const newcomer = link.purpose === "setup" ? newcomerOf(form) : null
  if (typeof newcomer === "string") return again(newcomer)
  if (newcomer && (await findAccount(store(), newcomer.userName))) return again("This user name is taken.")
  const words = await wordsOf(link, newcomer)
  const { breachedHashes } = readEnvironment()
  const problem = await passwordProblem(password.data, { words, breachedHashes })
  if (problem) return again(problem)
  if (password.data !== form.get("again")) return again("The two passwords are not the same.")
  const session = await useLink(store(), {
    ...{ token, password: password.data, newcomer, now },
    ...{ agent: sent.get("user-agent") ?? "", address: await clientAddress() },
  })
  if (session === null) return again("This link is good for nothing any more.")
  await writeSessionCookie(session)
  redirect("/sign-in/factor")
}

function newcomerOf(form: FormData): Newcomer | string {
  const name = PersonName.safeParse(form.get("name"))
  if (!name.success) return "A name has 2 to 100 characters."
  const userName = UserName.safeParse(form.get("userName"))
  if (!userName.success) return "A user name has 2 to 64 letters, digits, dots, hyphens or underscores."
  return { name: name.data, userName: userName.data, isLead: form.get("isLead") === "yes" }
}

/** What somebody who knows the person would try. */
async function wordsOf(link: OneTimeLink, newcomer: Newcomer | null): Promise<string[]> {
  const clinic = await store().clinic.findUnique({ where: { id: 1 } })
  const who = newcomer ?? link.user
  return [clinic?.name ?? "", who?.name ?? "", who?.userName ?? ""]
}
