import { spawn } from "node:child_process"
import { cpSync, existsSync, symlinkSync, writeFileSync } from "node:fs"
import path from "node:path"
import type { PlacedMutant, Target } from "./targets"

/** The tests that ask the SQL itself; those of the hand-made people are part of the quick checks. */
const testsOf = {
  formula: ["tests/unit/clinical"],
  view: ["tests/unit/clinical", "tests/integration"],
  condition: ["tests/integration/measures"],
  caution: ["tests/integration/measures"],
} as const

const leftOut = ["node_modules", ".git", ".next", ".data"]

/** The views that read drug texts are asked by the drug tests alone. */
function testsFor({ kind, file }: Target): readonly string[] {
  return /\/views\/1[0-8]_/.test(file) ? ["tests/unit/clinical/drug-"] : testsOf[kind]
}

export type SlowChecks = { killerOf: (mutant: PlacedMutant) => Promise<string | null> }

/** A copy of the project in which a file may be changed and its tests run; asserts that they pass while nothing is changed. */
export async function openSlowChecks(scratch: string): Promise<SlowChecks> {
  const tree = path.join(scratch, "tree")
  cpSync(".", tree, { recursive: true, filter: (from) => !leftOut.includes(path.basename(from)) })
  if (!existsSync(path.join(tree, "node_modules")))
    symlinkSync(path.resolve("node_modules"), path.join(tree, "node_modules"))
  if (!(await isPassing(tree, testsOf.view))) throw new Error("the tests fail before anything is changed")
  return {
    killerOf: async (mutant) => {
      const { file } = mutant.target
      writeFileSync(path.join(tree, file), mutant.content)
      const isAlive = await isPassing(tree, testsFor(mutant.target))
      cpSync(file, path.join(tree, file))
      return isAlive ? null : testsFor(mutant.target).join(" ")
    },
  }
}

function isPassing(tree: string, tests: readonly string[]): Promise<boolean> {
  const vitest = path.join(tree, "node_modules/vitest/vitest.mjs")
  const config = ["--config", "tests/mutation/vitest.config.ts"]
  const child = spawn(process.execPath, [vitest, "run", ...config, "--bail", "1", ...tests], {
    cwd: tree,
    stdio: "ignore",
  })
  return new Promise((resolve, reject) => {
    child.once("error", reject)
    child.once("exit", (code) => resolve(code === 0))
  })
}
