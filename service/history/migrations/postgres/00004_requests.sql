-- +goose Up
-- What each request did, so that a repeated one does nothing.
create table requests (
    scope ordered_text not null,
    id ordered_text not null,
    print text not null,
    target text not null,
    first_sequence bigint not null,
    last_sequence bigint not null,
    primary key (scope, id)
);
