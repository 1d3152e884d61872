package main

import (
	"bytes"
	"context"
	"fmt"
	"image/jpeg"
	"io"

	"rimward/internal/demo"
	"rimward/internal/journal"
	"rimward/internal/photo"
	"rimward/internal/sketch"
)

// album draws the photos of a season ahead of the moment at which they are
// kept, while the rest of it is written.
type album struct {
	ctx    context.Context
	folder *photo.Folder
	ready  map[journal.ID]chan []byte
}

// newAlbum begins to draw, two pictures at a time, until ctx ends.
func newAlbum(ctx context.Context, folder *photo.Folder, photos []demo.Photo) *album {
	a := &album{ctx: ctx, folder: folder, ready: map[journal.ID]chan []byte{}}
	for _, p := range photos {
		a.ready[p.ID] = make(chan []byte, 1)
	}
	for hand := range 2 {
		go func() {
			for i := hand; i < len(photos) && ctx.Err() == nil; i += 2 {
				a.ready[photos[i].ID] <- developed(photos[i])
			}
		}()
	}
	return a
}

// developed is a photo as a camera would send it; nothing when it cannot be
// drawn.
func developed(p demo.Photo) []byte {
	var b bytes.Buffer
	if jpeg.Encode(&b, sketch.Draw(p.Scene, p.Seed), &jpeg.Options{Quality: 90}) != nil {
		return nil
	}
	return b.Bytes()
}

// keep keeps a drawn picture as an uploaded one is kept.
func (a *album) keep(p demo.Photo, then func(hash string, width, height int) error) error {
	var sent io.Reader
	select {
	case body := <-a.ready[p.ID]:
		sent = bytes.NewReader(body)
	case <-a.ctx.Done():
		return a.ctx.Err()
	}
	_, err := a.folder.Keep(a.ctx, sent, func(k photo.Kept) error { return then(k.Hash, k.Width, k.Height) })
	if err != nil {
		return fmt.Errorf("keep photo: %w", err)
	}
	return nil
}
