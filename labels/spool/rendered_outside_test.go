//go:build outside

package spool

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"steeltally/labels"
	"steeltally/labels/png"
	"steeltally/labels/reader"
	"steeltally/templates"
)

// rendering adds a queue whose filters make dots of what is printed, as those of a real
// label printer do, and gives the file that the dots land in.
func (c *cups) rendering(queue string) string {
	c.t.Helper()
	paper := filepath.Join(c.dir, "spool", queue+".ras")
	driver, err := filepath.Abs("testdata/label.ppd")
	if err != nil {
		c.t.Fatal(err)
	}
	c.command("lpadmin", "-p", queue, "-E", "-v", "file://"+paper, "-P", driver)
	return paper
}

// The head of a page in the CUPS raster format: where it says how many dots it has.
// Source: CUPS programming manual, "Raster format".
const (
	rasterSync   = 4
	rasterHead   = 1796
	atWidth      = 372
	atHeight     = 376
	atPixelBits  = 388
	atLineBytes  = 392
	atColorSpace = 400
	spaceBlack   = 3 // 1 is ink
	spaceGrey    = 18
)

// paperDots reads the page that lies on the paper, once it is whole.
func (c *cups) paperDots(paper string) *image.Gray {
	c.t.Helper()
	var file []byte
	for range 400 {
		file, _ = os.ReadFile(paper)
		if page := dotsIn(file); page != nil {
			return page
		}
		time.Sleep(50 * time.Millisecond)
	}
	c.t.Fatalf("no whole page on the paper, %d bytes: %s", len(file), c.read("log/error"))
	return nil
}

// dotsIn is the first page of a raster file without compression; nothing before it is whole.
func dotsIn(file []byte) *image.Gray {
	if len(file) < rasterSync+rasterHead {
		return nil
	}
	var order binary.ByteOrder = binary.LittleEndian
	if string(file[:rasterSync]) == "RaS3" {
		order = binary.BigEndian
	}
	head := file[rasterSync:]
	number := func(at int) int { return int(order.Uint32(head[at:])) }
	width, height, bits, stride := number(atWidth), number(atHeight), number(atPixelBits), number(atLineBytes)
	body := head[rasterHead:]
	if len(body) < stride*height {
		return nil
	}
	page := image.NewGray(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			var ink bool
			switch line := body[y*stride:]; {
			case bits == 1:
				ink = line[x/8]&(0x80>>(x%8)) != 0 == (number(atColorSpace) == spaceBlack)
			default:
				ink = line[x] < 128 == (number(atColorSpace) == spaceGrey)
			}
			if !ink {
				page.SetGray(x, y, color.Gray{Y: 255})
			}
		}
	}
	return page
}

// A driver that makes dots leaves those of a tag where they are: neither moved nor
// widened, and what they say can be read.
func TestDriverKeepsTheDots(t *testing.T) {
	c := startCUPS(t)
	names := templates.Embedded().Tags()
	if len(names) < 8 {
		t.Fatalf("only %d templates", len(names))
	}
	for i, name := range names {
		queue, page := fmt.Sprint("labels", i), tagPage(t, name)
		paper := c.rendering(queue)
		if _, err := (Spooler{Server: c.address}).Submit(context.Background(), tagJob(queue, page), bytes.NewReader(document(t, page))); err != nil {
			t.Fatal(err)
		}
		dots := c.paperDots(paper)
		if wrong := strayDots(t, page, dots); wrong > 0 {
			t.Errorf("%s: %d dots outside letters are not where they were meant", name, wrong)
		}
		found, err := reader.Read(context.Background(), dots, reader.Options{})
		if err != nil || len(found) < len(page.Symbols) {
			t.Errorf("%s: %d of %d symbols can be read, error %v", name, len(found), len(page.Symbols), err)
		}
	}
}

// Centred, as a print system does unless told otherwise, the dots of a tag move off the
// printer's: the comparison sees it.
func TestCentringMovesTheDots(t *testing.T) {
	c := startCUPS(t)
	paper, page := c.rendering("labels"), tagPage(t, "set")
	file := filepath.Join(t.TempDir(), "tag.pdf")
	if err := os.WriteFile(file, document(t, page), 0o600); err != nil {
		t.Fatal(err)
	}
	job := tagJob("labels", page)
	c.command("lp", "-d", job.Queue, "-o", "media="+Media(job.Width, job.Height), "-o", "print-scaling=none", "-o", "position=center", file)
	if strayDots(t, page, c.paperDots(paper)) == 0 {
		t.Error("no dot was moved")
	}
}

func tagJob(queue string, page labels.Page) Job {
	return Job{queue, page.Name, page.Width.Millimetres(page.DPI), page.Height.Millimetres(page.DPI)}
}

// mostShort is how many dots at the right and the bottom a paper may lack: print systems
// take sizes in whole points, 2.8 dots at 203 dpi.
const mostShort = 3

// strayDots counts the dots outside letters that differ from the page's own. Letters are
// left out, since renderers differ at their edges.
func strayDots(t *testing.T, page labels.Page, got *image.Gray) int {
	t.Helper()
	want, err := png.Draw(page)
	if err != nil {
		t.Fatal(err)
	}
	letters := func(x, y int) bool {
		return slices.ContainsFunc(page.Texts, func(run labels.TextRun) bool {
			ink := run.Ink.Inset(-2)
			return x >= int(ink.X) && x < int(ink.Right()) && y >= int(ink.Y) && y < int(ink.Bottom())
		})
	}
	stray := 0
	paper := got.Bounds()
	if short := want.Bounds().Size().Sub(paper.Size()); short.X > mostShort || short.Y > mostShort {
		t.Errorf("%s: the paper is %v dots smaller than the tag", page.Name, short)
	}
	for y := range paper.Dy() {
		for x := range paper.Dx() {
			meant := image.Pt(x, y).In(want.Bounds()) && want.ColorIndexAt(x, y) == 1
			if black := got.GrayAt(x, y).Y == 0; black != meant && !letters(x, y) {
				stray++
			}
		}
	}
	return stray
}
