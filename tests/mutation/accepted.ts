import { readFileSync } from "node:fs"
import { z } from "zod"
import type { PlacedMutant } from "./targets"

/** A mutant that nothing can tell from the right text, with the reason. */
const Accepted = z.array(
  z.strictObject({
    file: z.string(),
    line: z.string(),
    column: z.number().int(),
    from: z.string(),
    to: z.string(),
    reason: z.string().min(10),
  }),
)

export type Accepted = z.infer<typeof Accepted>

export function readAccepted(): Accepted {
  return Accepted.parse(JSON.parse(readFileSync(new URL("accepted.json", import.meta.url), "utf8")))
}

/** The written reason why a mutant may live, or undefined. */
export function reasonFor(accepted: Accepted, mutant: PlacedMutant): string | undefined {
  return accepted.find(
    (one) =>
      one.file === mutant.target.file &&
      one.line === mutant.lineText &&
      one.column === mutant.column &&
      one.from === mutant.from &&
      one.to === mutant.to,
  )?.reason
}
