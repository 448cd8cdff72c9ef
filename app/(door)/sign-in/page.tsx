import type { Metadata } from "next"
import { redirect } from "next/navigation"
import { providerSettings } from "../../../lib/auth/provider-settings"
import { store } from "../../../lib/store/client"
import { demoPersonas } from "../../../lib/store/demo-personas"
import { providerProblemOf } from "../../_http/provider"
import { currentCaller } from "../../_http/require-user"
import { homeOf } from "../../(clinic)/screens"
import { PasskeyDoor } from "./passkey-door"
import { Personas } from "./personas"
import { ProviderDoor } from "./provider-door"
import { SignInForm } from "./sign-in-form"

export const metadata: Metadata = { title: "Sign in" }

export default async function SignInPage({ searchParams }: PageProps<"/sign-in">) {
  const caller = await currentCaller()
  if (caller) redirect(homeOf(caller))
  const personas = await demoPersonas(store())
  const hasProvider = providerSettings() !== null
  const problem = providerProblemOf((await searchParams).provider)
  return (
    <>
      {personas.length > 0 ? <Personas personas={personas} /> : null}
      {hasProvider ? <ProviderDoor problem={problem} /> : null}
      <SignInForm place={hasProvider ? "second" : "first"} />
      <PasskeyDoor />
    </>
  )
}
