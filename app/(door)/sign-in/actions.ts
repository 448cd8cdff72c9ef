"use server"

import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { z } from "zod"
import { signIn } from "../../../lib/auth/sign-in"
import { store } from "../../../lib/store/client"
import { assertSameOrigin } from "../../_http/same-origin"
import { clientAddress } from "../../_http/client-address"
import { writeSessionCookie } from "../../_http/session-cookie"

const Typed = z.object({ userName: z.string().max(200), password: z.string().max(1000) })

export type SignInState = { problem: string | null; userName: string }

/** The first factor; whatever is wrong with it, the words are the same. */
export async function signInWithPassword(_before: SignInState, form: FormData): Promise<SignInState> {
  const sent = await headers()
  assertSameOrigin(sent)
  const typed = Typed.safeParse({ userName: form.get("userName"), password: form.get("password") })
  if (!typed.success) return { problem: "The user name or the password is not right.", userName: "" }
  const answer = await signIn(store(), {
    ...typed.data,
    ...{ agent: sent.get("user-agent") ?? "", address: await clientAddress(), now: new Date() },
  })
  const { userName } = typed.data
  if (answer.status === "refused") return { problem: "The user name or the password is not right.", userName }
  if (answer.status === "wait")
    return { problem: `After so many attempts the next is taken in ${answer.seconds} s.`, userName }
  await writeSessionCookie(answer.token)
  redirect("/sign-in/factor")
}
