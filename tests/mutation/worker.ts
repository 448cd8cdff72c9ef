import { z } from "zod"
import { prepareClinics } from "./clinics"
import { killerOf, openQuickChecks } from "./quick-checks"
import { allTargets, placedMutants } from "./targets"

/** Puts every so-many-th mutant to the quick checks and prints one line of JSON for each. Started by main.ts. */
const [scratch = "", only = "", place = 0, of = 1] = z
  .tuple([z.string(), z.string(), z.coerce.number(), z.coerce.number()])
  .parse(process.argv.slice(2))

const mutants = allTargets()
  .filter((target) => target.file.includes(only))
  .flatMap(placedMutants)
  .filter((_, index) => index % of === place)
const checks = await openQuickChecks(await prepareClinics(scratch))
for (const mutant of mutants)
  process.stdout.write(`${JSON.stringify({ id: mutant.id, by: await killerOf(checks, mutant) })}\n`)
process.exit(0)
