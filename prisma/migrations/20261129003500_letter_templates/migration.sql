-- The clinic's own letters, one row for each time somebody wrote one: the latest of a language is in force, an empty body withdraws it.

-- CreateTable
CREATE TABLE "letter_templates" (
    "id" SERIAL NOT NULL,
    "language" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "letterhead" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "closing" TEXT NOT NULL,
    "own_words" TEXT NOT NULL,
    "written_by" TEXT NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "letter_templates_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "letter_templates_language_version_key" ON "letter_templates"("language", "version");
