import type { Metadata } from "next"
import { redirect } from "next/navigation"
import { store } from "../../../lib/store/client"
import { demoPersonas } from "../../../lib/store/demo-personas"
import { currentCaller } from "../../_http/require-user"
import { homeOf } from "../../(clinic)/screens"
import { Personas } from "./personas"
import { SignInForm } from "./sign-in-form"

export const metadata: Metadata = { title: "Sign in" }

export default async function SignInPage() {
  const caller = await currentCaller()
  if (caller) redirect(homeOf(caller))
  const personas = await demoPersonas(store())
  return (
    <>
      {personas.length > 0 ? <Personas personas={personas} /> : null}
      <SignInForm />
    </>
  )
}
