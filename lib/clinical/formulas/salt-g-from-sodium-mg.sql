-- Converts an amount of sodium to the salt (sodium chloride, 58.44 g/mol) that holds it.
-- shape: mg mg of sodium (0 or more) -> DOUBLE g of salt
-- absent: null when the value is null
-- throws: nothing
-- source: Prohaska 2022, Standard atomic weights of the elements 2021, Pure Appl Chem 94:573-600, Table 1, doi:10.1515/pac-2019-0603
--   [from memory]
-- example: salt_g_from_sodium_mg(2000) = 5.084
create or replace macro salt_g_from_sodium_mg(mg) as cast(mg as double) / 22.99 * 58.44 / 1000;
