import path from "node:path"
import type { TestProject } from "vitest/node"
import { freePort, startSite } from "./filtrate"
import { temporaryFolder } from "./temporary-folder"

declare module "vitest" {
  export interface ProvidedContext {
    demoUrl: string
    demoDataDir: string
  }
}

/** The demo clinic as `npm start` brings it up, production build and all; one for a whole run of browser tests. */
export default async function startDemoSite(project: TestProject): Promise<() => Promise<void>> {
  const temporary = temporaryFolder()
  const dataDir = path.join(temporary.folder, "data")
  const site = await startSite({ FILTRATE_DATA: dataDir, PORT: String(await freePort()) })
  project.provide("demoUrl", site.url)
  project.provide("demoDataDir", dataDir)
  return async () => {
    site.child.kill("SIGINT")
    await site.finished
    temporary.remove()
  }
}
