package demo

import (
	"context"
	"path/filepath"
	"testing"
	"time"
)

func TestBook(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "book")
	start := time.Now()
	s, err := Write(context.Background(), dir, Options{Seed: 1, End: endDay()})
	if err != nil {
		t.Fatal(err)
	}
	t.Log(s.Runners, s.Removed, s.Events, s.Begin, time.Since(start), len(s.Truth.Players), s.Truth.Open)
}
