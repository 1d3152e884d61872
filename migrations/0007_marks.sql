-- +goose Up
-- The marks from which a pool was measured on a photo: points in pixels of the
-- kept picture, x,y with spaces between them, in the order they were put.
ALTER TABLE photo ADD COLUMN wall_marks TEXT NOT NULL DEFAULT '' CHECK (wall_marks NOT GLOB '*[^0-9., ]*');
ALTER TABLE photo ADD COLUMN pool_marks TEXT NOT NULL DEFAULT '' CHECK (pool_marks NOT GLOB '*[^0-9., ]*');
