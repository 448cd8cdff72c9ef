-- Ways somebody narrows the list of people to contact, kept under a name.

-- CreateTable
CREATE TABLE "outreach_views" (
    "id" SERIAL NOT NULL,
    "user_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "search" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "outreach_views_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "outreach_views_user_id_name_key" ON "outreach_views"("user_id", "name");

-- AddForeignKey
ALTER TABLE "outreach_views" ADD CONSTRAINT "outreach_views_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "users"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
