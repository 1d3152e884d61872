package server_test

import (
	"context"
	"strconv"
	"testing"

	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

// A whole ladder is counted in one go; what is wrong comes back whole and saves
// nothing, and a rung whose row says nothing new is left alone.
func TestALadderIsCountedAtOnce(t *testing.T) {
	s := newCandleSite(t)
	ctx := context.Background()
	wicks, err := s.store.WicksOf(ctx, 1)
	if err != nil || len(wicks) < 2 {
		t.Fatalf("%d rungs, %v", len(wicks), err)
	}
	sum := 0
	for _, w := range wicks {
		sum += w.Version
	}
	first, second := "w"+strconv.Itoa(int(wicks[0].ID))+".", "w"+strconv.Itoa(int(wicks[1].ID))+"."
	counts := func(token string, version int, rest ...string) map[string][]string {
		return formOf(rest, "token", token, "version", strconv.Itoa(version), first+"on_hand", "30", first+"price", "0.12")
	}
	s.shows("/shelf/ladders/1", 200, `href="/shelf/ladders/1/counts"`)
	s.shows("/shelf/ladders/1/counts", 200, `name="`+first+`on_hand"`, "no currency set yet", "Save the counts")
	s.sendsBack("/shelf/ladders/1/counts", counts("a", sum, second+"on_hand", "many", second+"price", "cheap"), 422, `value="many"`, `value="cheap"`, `value="30"`, "Write a whole number.")
	s.sendsBack("/shelf/ladders/1/counts", counts("a", sum, second+"on_hand", "-2"), 422, `value="-2"`, "Between 0 and 1,000,000 pieces.")
	if w, _ := s.store.Wick(ctx, wicks[0].ID); w.OnHand != nil {
		t.Error("half of a rejected table was saved")
	}
	s.sendsOn("/shelf/ladders/1/counts", counts("a", sum), "/shelf/ladders/1")
	w, _ := s.store.Wick(ctx, wicks[0].ID)
	other, _ := s.store.Wick(ctx, wicks[1].ID)
	if w.OnHand == nil || *w.OnHand != 30 || *w.Price != 0.12 || w.CountedAt == nil || other.Version != wicks[1].Version {
		t.Errorf("saved as %+v; the other is %+v", w, other)
	}
	s.shows("/shelf/ladders/1/counts", 200, `value="30"`, `value="0.12"`, "counted 14 May 2026")
	s.sendsBack("/shelf/ladders/1/counts", counts("b", sum, second+"on_hand", "7"), 409, "changed meanwhile", `value="7"`)
	long := candleNoon.AddDate(0, 0, -60)
	w.CountedAt = &long
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error { return tx.SaveWick(&w) })
	s.sendsOn("/shelf/ladders/1/counts", counts("c", sum+2, second+"on_hand", "7"), "/shelf/ladders/1")
	s.shows("/shelf/ladders/1/counts", 200, "counted 15 Mar 2026", "counted 14 May 2026", `value="7"`)
	s.sendsOn("/shelf/ladders/1/counts", counts("d", sum+3, second+"on_hand", "7", "recounted", "1"), "/shelf/ladders/1")
	if w, _ = s.store.Wick(ctx, wicks[0].ID); !w.CountedAt.Equal(candleNoon) {
		t.Errorf("a rung that was counted again is dated %v", w.CountedAt)
	}
	s.shows("/shelf/ladders/99/counts", 404)
}
