import type { Command } from "commander"
import { isSettingKey, type SettingProblem } from "../domain/setting-proposal"
import { settingKeys, settingName, settingText, settingWords } from "../domain/setting-values"
import { defaultSettings, type SettingKey, type Settings } from "../domain/settings"
import { readEnvironment } from "../env"
import { AppError } from "../errors"
import { refresh } from "../jobs/refresh"
import { record } from "../store/audit"
import { commandActor } from "../store/audit-actors"
import { openDatabase } from "../store/database"
import { openClient } from "../store/client"
import { readSettings, saveSettings } from "../store/settings"
import { print } from "./print"
import { say } from "./say"

type Options = { set: string[]; reason?: string; json?: boolean }

export function register(program: Command): void {
  program
    .command("settings")
    .description("print what the clinic set, or set it and compute the figures anew")
    .option("--set <key=value>", "a value for a setting; may be given several times", gather, [])
    .option("--reason <text>", "why; asked for with --set and kept with who and when")
    .option("--json", "as JSON")
    .action(async (options: Options) => {
      const texts = textsOf(options.set)
      const reason = options.reason?.trim() ?? ""
      if (options.set.length > 0 && reason === "")
        throw new AppError("bad-request", "A change of settings needs a --reason.")
      const environment = readEnvironment()
      const database = await openDatabase({ environment, say })
      const client = openClient(database.url)
      try {
        if (options.set.length > 0) {
          const saved = await saveSettings(client, { texts, reason, by: commandActor(), now: new Date() })
          if (saved.status === "refused") throw refusal(saved.problems)
          if (saved.status === "unchanged") say("Nothing changes: the settings stand there already.")
          else await refresh({ databaseUrl: database.url, dataDir: environment.dataDir, onProgress: say })
        } else await record(client, { by: commandActor(), action: "settings.print" })
        const settings = await readSettings(client)
        await print(options.json ? JSON.stringify({ settings }) : tableOf(settings))
      } finally {
        await client.$disconnect()
        await database.close()
      }
    })
}

function gather(one: string, before: string[]): string[] {
  return [...before, one]
}

function textsOf(given: readonly string[]): Partial<Record<SettingKey, string>> {
  return Object.fromEntries(
    given.map((one) => {
      const [key = "", ...rest] = one.split("=")
      if (rest.length === 0) throw new AppError("bad-request", `--set takes key=value, not "${one}".`)
      if (!isSettingKey(key))
        throw new AppError(
          "bad-request",
          `There is no setting "${key}". The settings: ${settingKeys.join(", ")}.`,
        )
      return [key, rest.join("=")]
    }),
  )
}

function refusal(problems: readonly SettingProblem[]): AppError {
  const lines = problems.map(({ key, message }) => `${key}: ${message}`)
  return new AppError("bad-request", `Nothing was changed. ${lines.join(" ")}`)
}

function tableOf(settings: Settings): string {
  return settingKeys
    .map((key) => {
      const mark =
        settings[key] === defaultSettings[key] ? "" : `  (default ${settingText(defaultSettings[key])})`
      const value = settingText(settings[key])
      return `${key.padEnd(29)} ${value.padEnd(18)} ${settingName(key)}: ${settingWords(key, settings[key])}${mark}`
    })
    .join("\n")
}
