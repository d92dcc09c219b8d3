//go:build outside

package labels_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"sync"
	"testing"

	"steeltally/labels/png"
	"steeltally/templates"
)

var full = flag.Bool("full", false, "damage 1,000 tags in each way and print the table")

// A damaged tag is pictured as a camera sees it: so many pixels a printer's dot.
const pixelsPerDot = 2

// modulePixels is the side of a module of the tie-on tag's QR code at 203 dpi.
const modulePixels = 4 * pixelsPerDot

// photo is a picture of a tag in grey levels.
type photo struct {
	width, height int
	level         []float64
}

// harm is something that happens to a tag, and the least share of tags that must
// still be read after it.
type harm struct {
	name string
	do   func(p *photo, random *rand.Rand)
	read float64
}

// harms are what a season in a bucket does to tags.
func harms() []harm {
	return []harm{
		{"white scratch of one module", scratch(255), 0.985},
		{"black scratch of one module", scratch(0), 0.985},
		{"blob of 5 % of the tag", blob(0.05), 0.99},
		{"blob of 10 % of the tag", blob(0.10), 0.97},
		{"speckle of 5 %, dots", speckle(0.05, pixelsPerDot), 0.99},
		// Specks as large as a module are no speckle any more; what was reached is held.
		{"speckle of 5 %, modules", speckle(0.05, modulePixels), 0.94},
	}
}

// scratch is a straight line across the tag, a QR module wide, anywhere.
func scratch(level float64) func(*photo, *rand.Rand) {
	return func(p *photo, random *rand.Rand) {
		x, y := random.Float64()*float64(p.width), random.Float64()*float64(p.height)
		sin, cos := math.Sincos(random.Float64() * math.Pi)
		p.cover(level, func(dx, dy float64) bool { return math.Abs(dx*sin-dy*cos) < modulePixels/2 }, x, y)
	}
}

// blob is a round stain, black or white, that covers a share of the tag's area.
func blob(share float64) func(*photo, *rand.Rand) {
	return func(p *photo, random *rand.Rand) {
		radius := math.Sqrt(share * float64(p.width*p.height) / math.Pi)
		x, y := random.Float64()*float64(p.width), random.Float64()*float64(p.height)
		p.cover(float64(255*random.IntN(2)), func(dx, dy float64) bool { return math.Hypot(dx, dy) < radius }, x, y)
	}
}

// speckle is many specks, each black or white, that cover a share of the tag's area
// between them; side is the side of a speck in pixels.
func speckle(share float64, side int) func(*photo, *rand.Rand) {
	return func(p *photo, random *rand.Rand) {
		for range int(share * float64(p.width*p.height) / float64(side*side)) {
			x, y, level := random.IntN(p.width-side), random.IntN(p.height-side), float64(255*random.IntN(2))
			for i := range side * side {
				p.level[(y+i/side)*p.width+x+i%side] = level
			}
		}
	}
}

// cover gives the pixels that lie so from a point one level.
func (p *photo) cover(level float64, covered func(dx, dy float64) bool, x, y float64) {
	for i := range p.level {
		if covered(float64(i%p.width)-x, float64(i/p.width)-y) {
			p.level[i] = level
		}
	}
}

// picture is a tie-on tag as printed, enlarged to the camera's pixels.
func picture(t *testing.T, c templates.Content) *photo {
	t.Helper()
	page := tieOn(t, c, 203)
	dots, err := png.Draw(page)
	if err != nil {
		t.Fatal(err)
	}
	p := &photo{width: int(page.Width) * pixelsPerDot, height: int(page.Height) * pixelsPerDot}
	p.level = make([]float64, p.width*p.height)
	for i := range p.level {
		if dots.ColorIndexAt(i%p.width/pixelsPerDot, i/p.width/pixelsPerDot) == 0 {
			p.level[i] = 255
		}
	}
	return p
}

// blur is the camera's: a Gaussian of 0.35 modules, along rows and then along columns.
func (p *photo) blur() {
	const sigma, reach = 0.35 * modulePixels, 9 // more than three sigma
	var weights [2*reach + 1]float64
	sum := 0.0
	for i := range weights {
		weights[i] = math.Exp(-float64((i-reach)*(i-reach)) / (2 * sigma * sigma))
		sum += weights[i]
	}
	pass := func(length, lines, along, across int) {
		row := make([]float64, length)
		for line := range lines {
			for i := range row {
				row[i] = p.level[line*across+i*along]
			}
			for i := range row {
				total := 0.0
				for k, w := range weights {
					total += w * row[min(max(i+k-reach, 0), length-1)]
				}
				p.level[line*across+i*along] = total / sum
			}
		}
	}
	pass(p.width, p.height, 1, p.width)
	pass(p.height, p.width, p.width, 1)
}

// count is how many of some tags were read, by either symbol and by each alone; how
// many texts were no number of a piece, so that the program refuses them; and how many
// were a wrong one.
type count struct{ tags, either, qr, matrix, refused, wrong int }

// The tie-on tag survives a season: of tags damaged in each way, this many are still
// read by programs that we did not write, and none is ever read wrongly. Of either
// symbol alone fewer would be.
func TestTieOnTagSurvivesDamage(t *testing.T) {
	tags := 100
	if *full {
		tags = 1000
	}
	for seed, h := range harms() {
		t.Run(h.name, func(t *testing.T) { h.hold(t, tags, uint64(seed)) })
	}
}

// hold harms so many tags and holds what is still read to the least share.
func (h harm) hold(t *testing.T, tags int, seed uint64) {
	c := damage(t, h, tags, seed)
	t.Logf("%-28s read %5.1f %%; by its QR alone %5.1f %%, by its Data Matrix alone %5.1f %%; wrong %d of %d, %d refused",
		h.name, percent(c.either, tags), percent(c.qr, tags), percent(c.matrix, tags), c.wrong, c.tags, c.refused)
	if c.tags != tags || c.wrong > 0 {
		t.Errorf("%s: %d tags tried, %d read wrongly", h.name, c.tags, c.wrong)
	}
	// a tenth of the tags may by chance do worse by two standard errors
	slack := 0.0
	if !*full {
		slack = 2 * math.Sqrt(h.read*(1-h.read)/float64(tags))
	}
	if float64(c.either)/float64(tags) < h.read-slack {
		t.Errorf("%s: %d of %d tags were read, want %.1f %%", h.name, c.either, tags, 100*h.read)
	}
}

// percent is a share of a number in percent.
func percent(part, whole int) float64 { return 100 * float64(part) / float64(whole) }

// printed is a tag to be harmed.
type printed struct {
	content templates.Content
	picture *photo
	random  *rand.Rand
}

// print draws the i-th of many different tags.
func print(t *testing.T, seed uint64, i int) printed {
	t.Helper()
	random := rand.New(rand.NewPCG(seed, uint64(i)))
	c := templates.Sample()
	c.Number = withCheck(fmt.Sprintf("10%06d", random.IntN(1000000)))
	c.Side, c.Unsafe = []string{"left", "right"}[i%2], i%4 == 0
	c.Tally = fmt.Sprintf("T1.%s.2.117.%dL.260112.260128.1190.940.41.205.32.LOW.%02d", c.Number, random.IntN(99), random.IntN(97))
	return printed{c, picture(t, c), random}
}

// damage harms tags, two at a time, and counts how many are still read.
func damage(t *testing.T, h harm, tags int, seed uint64) count {
	t.Helper()
	var all count
	var mutex sync.Mutex
	var workers sync.WaitGroup
	queue := make(chan printed)
	for range 2 {
		workers.Go(func() {
			for tag := range queue {
				one := tag.survive(t, h)
				mutex.Lock()
				all.add(one)
				mutex.Unlock()
			}
		})
	}
	for i := range tags {
		queue <- print(t, seed, i)
	}
	close(queue)
	workers.Wait()
	return all
}

// add adds another count.
func (c *count) add(other count) {
	c.tags += other.tags
	c.either += other.either
	c.qr += other.qr
	c.matrix += other.matrix
	c.refused += other.refused
	c.wrong += other.wrong
}

// survive harms a tag and has it read.
func (tag printed) survive(t *testing.T, h harm) count {
	h.do(tag.picture, tag.random)
	tag.picture.blur()
	got := count{tags: 1}
	for text := range tag.picture.read(t) {
		switch text {
		case tag.content.Tally:
			got.qr = 1
		case tag.content.Number:
			got.matrix = 1
		default:
			if !tag.misleading(text) {
				got.refused++
				continue
			}
			got.wrong = 1
			t.Logf("%s: read %q, printed %q and %q", h.name, text, tag.content.Number, tag.content.Tally)
		}
	}
	got.either = max(got.qr, got.matrix)
	return got
}

// misleading tells whether a text that was not printed passes for another tag: for
// another piece's number, or for a tally of other content.
func (tag printed) misleading(text string) bool {
	if strings.HasPrefix(text, "T1.") {
		return true
	}
	return len(text) == 10 && strings.Trim(text, "0123456789") == "" && text == withCheck(text[:8])
}

// withCheck puts check digits behind digits (ISO 7064, MOD 97-10).
func withCheck(digits string) string {
	remainder := 0
	for _, d := range digits + "00" {
		remainder = (remainder*10 + int(d-'0')) % 97
	}
	return fmt.Sprintf("%s%02d", digits, 98-remainder)
}
