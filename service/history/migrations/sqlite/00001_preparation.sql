-- +goose Up
-- Marks the file as one of ours: the letters "Glos". A column of a type that SQLite does not know, such as ordered_text, is text
-- if its name says so, and compares byte by byte.
pragma application_id = 1198288755;
