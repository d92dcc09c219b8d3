package reader_test

import (
	"context"
	"math/rand/v2"
	"testing"
	"time"

	"steeltally/labels/reader"
)

// tally counts how the tags of photographs were read.
type tally struct {
	tags, found       int // found by either symbol
	byText, byNumber  int
	wrong             int // texts that no tag carries
	longest, together time.Duration
	clock             func() time.Duration // of the processor; nil where it is not measured
	processor         time.Duration
}

// add draws a photograph from a seed and reads it.
func (c *tally) add(t testing.TB, s scene, seed uint64) {
	t.Helper()
	img, tags := s.render(t, rand.New(rand.NewPCG(seed, 1)))
	clock := c.clock
	if clock == nil {
		clock = func() time.Duration { return 0 }
	}
	start, used := time.Now(), clock()
	found, err := reader.Read(context.Background(), img, reader.Options{})
	took := time.Since(start)
	c.processor += clock() - used
	if err != nil {
		t.Fatal(err)
	}
	c.longest, c.together = max(c.longest, took), c.together+took
	var texts []string
	for _, f := range found {
		texts = append(texts, f.Text)
	}
	c.count(tags, texts)
}

// count compares what was read with what the tags carry.
func (c *tally) count(tags []placedTag, read []string) {
	texts := map[string]bool{}
	for _, text := range read {
		texts[text] = true
	}
	for _, tag := range tags {
		c.tags++
		byText, byNumber := tag.text != "" && texts[tag.text], texts[tag.number]
		if byText {
			c.byText++
		}
		if byNumber {
			c.byNumber++
		}
		if byText || byNumber {
			c.found++
		}
		delete(texts, tag.text)
		delete(texts, tag.number)
	}
	c.wrong += len(texts)
}

// mustHold fails the test where fewer than a share of the tags was found, or
// anything was read that is on none.
func (c *tally) mustHold(t *testing.T, share float64) {
	t.Helper()
	t.Logf("%d of %d tags: %d by QR Code, %d by number; %d wrong", c.found, c.tags, c.byText, c.byNumber, c.wrong)
	if c.tags == 0 || float64(c.found) < share*float64(c.tags) {
		t.Errorf("found %d of %d tags", c.found, c.tags)
	}
	if c.wrong > 0 {
		t.Errorf("%d texts are on no tag", c.wrong)
	}
}

// condition is a way of taking a photograph, or of treating a tag.
type condition struct {
	name  string
	apply func(*scene)
}

// conditions are what photographs and scans of tags are like.
func conditions() []condition {
	return []condition{
		{"bench", func(*scene) {}},
		{"the program's own tag", func(s *scene) { s.draw = embeddedTag }},
		{"blur 1.4 px", func(s *scene) { s.blur = 1.4 }},
		{"blur 1.8 px", func(s *scene) { s.blur = 1.8 }},
		{"noise 10", func(s *scene) { s.noise = 10 }},
		{"noise 20", func(s *scene) { s.noise = 20 }},
		{"light down to 0.15", func(s *scene) { s.darkest = 0.15 }},
		{"tilt 40°, from 150 mm", func(s *scene) { s.tilt, s.distance, s.module = 40, 150, 3.5 }},
		{"3 px a module", func(s *scene) { s.module = 3 }},
		{"2.5 px a module", func(s *scene) { s.module = 2.5 }},
		{"2 px a module", func(s *scene) { s.module, s.blur = 2, 0.5 }},
		{"low contrast", func(s *scene) { s.paper, s.ink = 160, 110 }},
		{"JPEG quality 40", func(s *scene) { s.quality = 40 }},
		{"upside down", func(s *scene) { s.turn = upsideDown }},
		{"upright", func(s *scene) { s.turn, s.tilt = upright, 0 }},
		{"8 × 18 strips", func(s *scene) { s.draw = stripTag }},
		{"Code 128 of 2.5 px", func(s *scene) { s.draw, s.module = barsTag, 5 }},
		{"white scratch", func(s *scene) { s.draw = damaged(tieOnTag, scratch(255)) }},
		{"black scratch", func(s *scene) { s.draw = damaged(tieOnTag, scratch(0)) }},
		{"5 % blob", func(s *scene) { s.draw = damaged(tieOnTag, blob(0.05)) }},
		{"10 % blob", func(s *scene) { s.draw = damaged(tieOnTag, blob(0.10)) }},
		{"5 % speckle", func(s *scene) { s.draw = damaged(tieOnTag, speckle(0.05)) }},
	}
}

// TestPhotograph reads the photograph that the reader is measured by.
func TestPhotograph(t *testing.T) {
	var c tally
	c.add(t, benchScene(), 1)
	c.mustHold(t, 0.95)
}

// TestConditions reads a corner of it, taken in every way: with these seeds, every
// tag. The benchmark tells the share of many.
func TestConditions(t *testing.T) {
	for _, condition := range conditions() {
		t.Run(condition.name, func(t *testing.T) {
			t.Parallel()
			s := cornerScene()
			condition.apply(&s)
			var c tally
			c.add(t, s, 7)
			c.mustHold(t, 1)
		})
	}
}

// TestScannedPage reads a page of 16 tags as a scanner sees it: every one.
func TestScannedPage(t *testing.T) {
	for _, dpi := range []int{203, 300} {
		var c tally
		c.add(t, pageScene(dpi), 5)
		c.mustHold(t, 1)
	}
}

// TestOneTag reads one tag that fills the picture, its modules 20 pixels wide.
func TestOneTag(t *testing.T) {
	s := benchScene()
	s.width, s.height, s.columns, s.rows, s.module = 3200, 2400, 1, 1, 20
	s.turn, s.blur = upright, 3
	var c tally
	c.add(t, s, 3)
	c.mustHold(t, 1)
	if c.byText != 1 || c.byNumber != 1 {
		t.Errorf("read %d QR Code and %d Data Matrix symbols", c.byText, c.byNumber)
	}
}
