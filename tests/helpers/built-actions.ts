import { readFileSync } from "node:fs"
import { z } from "zod"
import { pages } from "../fixtures/authorisation"
import { addressOf } from "./what-can-be-asked"

const Manifest = z.object({
  node: z.record(
    z.string(),
    z.object({
      filename: z.string(),
      exportedName: z.string(),
      workers: z.record(z.string(), z.unknown()),
    }),
  ),
})

export type BuiltAction = { id: string; at: string }

/** Where the built site takes each action, by file and name: its id, and a screen that has it. */
export function builtActions(): Map<string, BuiltAction> {
  const manifest = Manifest.parse(
    JSON.parse(readFileSync(".next/server/server-reference-manifest.json", "utf8")),
  )
  return new Map(
    Object.entries(manifest.node).map(([id, action]) => {
      const screens = Object.keys(action.workers).map((worker) => addressOf(`${worker}.tsx`))
      const at = screens.flatMap((screen) => pages[screen]?.at ?? []).find((one) => one !== "/no-such-screen")
      return [`${action.filename} ${action.exportedName}`, { id, at: at ?? "/" }]
    }),
  )
}

/** Sends a form to an action as a page of the site does, with the answer before it where the action takes one. */
export async function sendForm(
  origin: string,
  sent: {
    action: string
    fields: readonly (readonly [string, string])[]
    cookie?: string
    hasState?: boolean
  },
): Promise<Response> {
  const built = builtActions().get(sent.action)
  if (built === undefined) throw new Error(`the built site has no action ${sent.action}`)
  const body = new FormData()
  for (const [name, value] of sent.fields) body.append(`_1_${name}`, value)
  body.append("0", JSON.stringify(sent.hasState ? [{ problem: null }, "$K1"] : ["$K1"]))
  const headers = {
    origin,
    "sec-fetch-site": "same-origin",
    "next-action": built.id,
    cookie: sent.cookie ?? "",
  }
  return fetch(origin + built.at, { method: "POST", headers, body, redirect: "manual" })
}
