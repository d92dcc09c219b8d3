package book_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// sized makes a book of a size and the seasons that made it.
func sized(b *testing.B, events int) (string, *booktest.Seasons) {
	b.Helper()
	dir := booktest.Make(b)
	seasons := booktest.NewSeasons()
	bk, err := book.Open(dir, book.Options{})
	if err != nil {
		b.Fatal(err)
	}
	start := time.Now()
	err = bk.Bulk(func(record book.Recorder) error { return seasons.Play(record, events) })
	if err != nil {
		b.Fatal(err)
	}
	fmt.Println(events, float64(events)/time.Since(start).Seconds(), "ev/s")
	if err := bk.Close(); err != nil {
		b.Fatal(err)
	}
	return dir, seasons
}

func median(times []time.Duration, at float64) time.Duration {
	slices.Sort(times)
	return times[int(float64(len(times)-1)*at)]
}

func BenchmarkAppend(b *testing.B) {
	for _, n := range []int{10_000, 200_000, 1_000_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			dir, seasons := sized(b, n)
			for range b.N {
				start := time.Now()
				bk, err := book.Open(dir, book.Options{})
				if err != nil {
					b.Fatal(err)
				}
				fmt.Println("open", time.Since(start))
				bare, _ := os.Create(filepath.Join(dir, "bare"))
				line := make([]byte, 357)
				var bares, ours []time.Duration
				for i := range 1500 {
					start := time.Now()
					bare.WriteAt(line, int64(i*len(line)))
					unix.Fdatasync(int(bare.Fd()))
					bares = append(bares, time.Since(start))
					start = time.Now()
					if err := seasons.Step(bk.Record); err != nil {
						b.Fatal(err)
					}
					ours = append(ours, time.Since(start))
				}
				bk.Close()
				fmt.Println("p50", median(bares, .5), median(ours, .5), "p99", median(bares, .99), median(ours, .99), float64(median(ours, .5))/float64(median(bares, .5)))
				start = time.Now()
				rep, err := book.VerifyHere(dir, "x")
				fmt.Println(rep, err, float64(rep.Events)/time.Since(start).Seconds())
			}
		})
	}
}
