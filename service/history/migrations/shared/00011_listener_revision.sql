-- +goose Up
-- Of two changes of a listener at the same moment the later has to know of the earlier.
alter table listeners add column revision bigint not null default 1;
