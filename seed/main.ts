import { parseArgs } from "node:util"
import { clinicName } from "./clinic"
import { plausibilityText } from "./plausibility"
import { demoClinicDefaults, writeDemoClinic } from "./write-demo-clinic"

const usage = `Writes the demo clinic as an extract: ten CSV files.

  npm run seed -- [options]

  --out DIR             folder for the files (default seed/out)
  --patients N          people (default ${demoClinicDefaults.patients})
  --seed N              another clinic of the same kind (default ${demoClinicDefaults.seed})
  --months N            months the story covers (default ${demoClinicDefaults.months})
  --through YYYY-MM-DD  last day of the story (default yesterday)
`

try {
  run(process.argv.slice(2))
} catch (error) {
  if (!(error instanceof Error)) throw error
  console.error(`${error.message}\n\n${usage}`)
  process.exitCode = 2
}

function run(words: readonly string[]): void {
  const { values } = parseArgs({
    args: [...words],
    options: {
      out: { type: "string", default: "seed/out" },
      patients: { type: "string", default: String(demoClinicDefaults.patients) },
      seed: { type: "string", default: String(demoClinicDefaults.seed) },
      months: { type: "string", default: String(demoClinicDefaults.months) },
      through: { type: "string", default: yesterday() },
      help: { type: "boolean", default: false },
    },
  })
  if (values.help) return console.log(usage)
  const started = Date.now()
  const clinic = writeDemoClinic({
    folder: values.out,
    patients: Number(values.patients),
    seed: Number(values.seed),
    months: Number(values.months),
    through: values.through,
    onProgress: (done, patients) => console.error(`${done} of ${patients} people`),
  })
  const rows = Object.values(clinic.rowsByFile).reduce((sum, n) => sum + n, 0)
  console.error(`${rows} rows in ${values.out}, ${((Date.now() - started) / 1000).toFixed(1)} s`)
  console.log(`${clinicName}, through ${values.through}`)
  for (const [file, n] of Object.entries(clinic.rowsByFile)) console.log(`  ${`${file}.csv`.padEnd(18)} ${n}`)
  console.log(`  wrong on purpose   ${clinic.badRows}\n`)
  console.log(plausibilityText(clinic.tally))
}

function yesterday(): string {
  const now = new Date()
  const day = new Date(now.getFullYear(), now.getMonth(), now.getDate() - 1)
  return [day.getFullYear(), day.getMonth() + 1, day.getDate()]
    .map((part) => String(part).padStart(2, "0"))
    .join("-")
}
