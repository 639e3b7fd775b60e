-- +goose Up
-- Text that is compared and put in order byte by byte, as SQLite does, whatever language the server was set up for.
create domain ordered_text as text collate "C";
