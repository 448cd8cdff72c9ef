-- Who typed the rows of an import that no extract brought; empty for every other import.
ALTER TABLE "imports" ADD COLUMN "entered_by" TEXT, ADD COLUMN "entered_by_id" UUID;
