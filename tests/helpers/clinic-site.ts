import path from "node:path"
import { filtrate, freePort, startSite } from "./filtrate"
import { writeExtract, type ExtractFiles } from "./extract"
import { temporaryFolder } from "./temporary-folder"

export type ClinicSite = {
  url: string
  /** The link for the first administrator that the start has told. */
  setupLink: () => string
  bringIn: (files: ExtractFiles) => Promise<void>
  close: () => Promise<void>
}

/** An empty clinic of a test file's own, with the whole site over it; `bringIn` imports an extract as a console does. */
export async function openClinicSite(more: Record<string, string> = {}): Promise<ClinicSite> {
  const temporary = temporaryFolder()
  const env = {
    FILTRATE_DATA: path.join(temporary.folder, "data"),
    FILTRATE_DEMO: "off",
    FILTRATE_TIME_ZONE: "UTC",
  }
  const site = await startSite({ ...env, PORT: String(await freePort()), ...more })
  return {
    url: site.url,
    setupLink: () => /http:\S+\/setup\/\S+/.exec(site.said())?.[0] ?? "no link was told",
    bringIn: async (files) => {
      const finished = await filtrate(["import", writeExtract(temporary.folder, files)], env)
      if (finished.exitCode !== 0) throw new Error(finished.stderr)
    },
    close: async () => {
      site.child.kill("SIGINT")
      await site.finished
      temporary.remove()
    },
  }
}
