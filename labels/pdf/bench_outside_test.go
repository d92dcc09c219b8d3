//go:build outside

package pdf_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"steeltally/templates"
)

// BenchmarkSeasonBesideZint makes a season's tags and, in the same run, lets zint make
// the two symbols of each alone, one vector file a symbol; it says how much longer zint
// takes. Target: 500 tags a second.
func BenchmarkSeasonBesideZint(b *testing.B) {
	library := templates.Embedded()
	template, err := library.Tag("tie-on")
	if err != nil {
		b.Fatal(err)
	}
	sheet, err := library.Sheet("a4-3x8")
	if err != nil {
		b.Fatal(err)
	}
	var ours, zint time.Duration
	for b.Loop() {
		begin := time.Now()
		if _, err := writeSeason(template, sheet); err != nil {
			b.Fatal(err)
		}
		ours += time.Since(begin)
		begin = time.Now()
		zintSeason(b)
		zint += time.Since(begin)
	}
	b.ReportMetric(season*float64(b.N)/ours.Seconds(), "tags/s")
	b.ReportMetric(season*float64(b.N)/zint.Seconds(), "zint-tags/s")
	b.ReportMetric(zint.Seconds()/ours.Seconds(), "zint/ours")
}

// zintSeason lets zint make a season's symbols.
func zintSeason(b *testing.B) {
	folder := b.TempDir()
	for _, sort := range []struct {
		name    string
		options []string
		text    func(i int) string
	}{
		{"qr", []string{"-b", "QRCODE", "--secure=3"}, func(i int) string { return content(i).Tally }},
		{"dm", []string{"-b", "DATAMATRIX"}, func(i int) string { return content(i).Number }},
	} {
		var lines strings.Builder
		for i := range season {
			fmt.Fprintln(&lines, sort.text(i))
		}
		input := filepath.Join(folder, sort.name+".txt")
		if err := os.WriteFile(input, []byte(lines.String()), 0o600); err != nil {
			b.Fatal(err)
		}
		options := append(sort.options, "--batch", "-i", input, "-o", filepath.Join(folder, sort.name+"~~~~.eps"))
		if out, err := exec.Command("zint", options...).CombinedOutput(); err != nil {
			b.Fatalf("zint: %v: %s", err, out)
		}
		made, err := filepath.Glob(filepath.Join(folder, sort.name+"*.eps"))
		if err != nil || len(made) != season {
			b.Fatalf("zint made %d of %d symbols: %v", len(made), season, err)
		}
	}
}
