package pdf_test

import (
	"fmt"
	"io"
	"runtime"
	"testing"

	"steeltally/labels"
	"steeltally/labels/pdf"
	"steeltally/templates"
)

// season is the number of tie-on tags that one season's removed steel takes.
const season = 1500

// content is the i-th of many different tags.
func content(i int) templates.Content {
	c := templates.Sample()
	c.Number = fmt.Sprintf("10%06d%02d", i*619%1000000, i%97)
	c.Short = fmt.Sprintf("R0-%d-%02d", i*619%1000000, i%97)
	c.Side = []string{"left", "right"}[i%2]
	c.Sweater = fmt.Sprint(i % 99)
	c.Tally = fmt.Sprintf("T1.%s.2.%d.%dL.260112.260128.1190.%d.41.205.32.LOW.%02d", c.Number, 100+i%800, i%99, 800+i%300, i%97)
	return c
}

// BenchmarkSeasonOfTieOnTags lays out, imposes and writes a season's tags.
func BenchmarkSeasonOfTieOnTags(b *testing.B) {
	library := templates.Embedded()
	template, err := library.Tag("tie-on")
	if err != nil {
		b.Fatal(err)
	}
	sheet, err := library.Sheet("a4-3x8")
	if err != nil {
		b.Fatal(err)
	}
	var size int64
	for b.Loop() {
		if size, err = writeSeason(template, sheet); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(size)/season, "bytes/tag")
	b.ReportMetric(season*float64(b.N)/b.Elapsed().Seconds(), "tags/s")
	var memory runtime.MemStats
	runtime.ReadMemStats(&memory)
	b.ReportMetric(float64(memory.Sys)/1e6, "MB-from-system")
}

// writeSeason writes a season's tags to nowhere and gives the file's size.
func writeSeason(template *templates.Template, sheet *templates.Sheet) (int64, error) {
	tags := make([]labels.Page, season)
	for i := range tags {
		tag, err := labels.Layout(template, content(i), 203)
		if err != nil {
			return 0, err
		}
		tags[i] = tag
	}
	pages, err := labels.Imposition{Sheet: sheet}.Impose(tags)
	if err != nil {
		return 0, err
	}
	d, err := pdf.New()
	if err != nil {
		return 0, err
	}
	for _, p := range pages {
		if err := d.Add(p); err != nil {
			return 0, err
		}
	}
	return d.WriteTo(io.Discard)
}
