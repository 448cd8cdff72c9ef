-- Converts an amount of salt (sodium chloride, 58.44 g/mol) to the sodium it holds.
-- shape: g g of salt (0 or more) -> DOUBLE mg of sodium
-- absent: null when the value is null
-- throws: nothing
-- source: Prohaska 2022, Standard atomic weights of the elements 2021, Pure Appl Chem 94:573-600, Table 1, doi:10.1515/pac-2019-0603
--   [from memory]
-- example: sodium_mg_from_salt_g(5) = 1967
create or replace macro sodium_mg_from_salt_g(g) as cast(g as double) * 1000 / 58.44 * 22.99;
