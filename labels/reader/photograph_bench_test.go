//go:build unix

package reader_test

import (
	"fmt"
	"syscall"
	"testing"
	"time"
)

// BenchmarkPhotograph reads whole photographs under every condition, a new one for
// each seed, and reports what share of the tags was found. Drawing them is not
// timed. With -benchtime 10x, ten of each.
func BenchmarkPhotograph(b *testing.B) {
	for _, condition := range conditions() {
		b.Run(condition.name, func(b *testing.B) {
			s := benchScene()
			condition.apply(&s)
			measure(b, s)
		})
	}
}

// BenchmarkScannedPage does the same for a page of tags on a scanner.
func BenchmarkScannedPage(b *testing.B) {
	for _, dpi := range []int{203, 300, 600} {
		b.Run(fmt.Sprintf("%d dpi", dpi), func(b *testing.B) { measure(b, pageScene(dpi)) })
	}
}

func measure(b *testing.B, s scene) {
	b.StopTimer()
	c := tally{clock: processorTime}
	for i := range b.N {
		c.add(b, s, 1000+uint64(i))
	}
	share := func(n int) float64 { return 100 * float64(n) / float64(c.tags) }
	b.ReportMetric(float64(c.tags), "tags")
	b.ReportMetric(share(c.found), "%found")
	b.ReportMetric(share(c.byText), "%byQR")
	b.ReportMetric(share(c.byNumber), "%bynumber")
	b.ReportMetric(float64(c.wrong), "wrong")
	b.ReportMetric(float64(c.longest.Milliseconds()), "ms-longest")
	b.ReportMetric(float64(c.together.Milliseconds())/float64(b.N), "ms-mean")
	b.ReportMetric(float64(c.processor.Milliseconds())/float64(b.N), "cpu-ms-mean")
	b.ReportMetric(0, "ns/op")
}

// processorTime is what the process has used of all cores together: unlike the
// time on the clock, other programs do not lengthen it much.
func processorTime() time.Duration {
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		return 0
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
