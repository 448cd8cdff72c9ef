-- What a person did with a case can be taken back: a line keeps the case before and after, and names the line it takes back.

-- AlterTable
ALTER TABLE "outreach_events" ADD COLUMN "life" JSONB,
ADD COLUMN "undoes_id" BIGINT;

-- CreateIndex
CREATE UNIQUE INDEX "outreach_events_undoes_id_key" ON "outreach_events"("undoes_id");

-- AddForeignKey
ALTER TABLE "outreach_events" ADD CONSTRAINT "outreach_events_undoes_id_fkey" FOREIGN KEY ("undoes_id") REFERENCES "outreach_events"("id") ON DELETE NO ACTION ON UPDATE CASCADE;
