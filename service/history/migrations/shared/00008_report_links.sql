-- +goose Up
-- Links to the reports of jobs. Of the token that a link ends in only its hash is kept, in hexadecimal digits. The setting is JSON.
create table report_links (
    id ordered_text not null primary key,
    job_id ordered_text not null references jobs (id),
    token_hash ordered_text not null unique,
    setting text not null,
    created_at bigint not null,
    expires_at bigint not null
);

create index report_links_by_job on report_links (job_id, created_at, id);
