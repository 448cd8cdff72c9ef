-- Converts an amount of sodium from mg to mmol.
-- shape: mg mg (0 or more) -> DOUBLE mmol
-- absent: null when the value is null
-- throws: nothing
-- source: Prohaska 2022, Standard atomic weights of the elements 2021, Pure Appl Chem 94:573-600, Table 1, doi:10.1515/pac-2019-0603
--   [from memory]
-- example: sodium_mmol_from_mg(2300) = 100.04
create or replace macro sodium_mmol_from_mg(mg) as cast(mg as double) / 22.99;
