-- +goose Up
-- Bays, each with a number that rises with every booking in it, so that who books by what was free then learns of a quicker one.
create table bays (
    id ordered_text not null primary key,
    revision bigint not null
);

-- What jobs hold of a bay, kept beside their events and made from them.
create table bay_holds (
    job_id ordered_text not null references jobs (id),
    start_at bigint not null,
    end_at bigint not null,
    bay_id ordered_text not null references bays (id),
    primary key (job_id, start_at)
);

create index bay_holds_by_bay on bay_holds (bay_id, end_at, start_at);
