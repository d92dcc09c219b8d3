package desk

import (
	"errors"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/review"
	"steeltally/inventory/wear"
)

// ReviewAsked says what is looked back on: everything, unless something is told.
type ReviewAsked struct {
	Player string
	Season string   // "2025/26", or any time as typed
	Scans  []string // a bin's tags
	Bin    bool     // the scans are meant, also if there are none
}

// Review is what is told of it.
type Review struct {
	review.Review
	Club      string
	OnePlayer bool
	At        time.Time
	Scope     string // "the whole club", "17 Ansgar Lindqvarn, season 2025/26"
	Bin       *review.Bin
}

// ReviewRead is what a review looks back on, as it was read.
type ReviewRead struct {
	options  Options
	review   Review
	lives    []*review.Life
	span     review.Span
	who      map[inventory.Number]reviewed
	unworked []inventory.Unworked // pieces that could not be read
}

// reviewed is a player as far as a review asks.
type reviewed struct {
	name       string
	goalkeeper bool
}

// Review looks back on a bin, a player, a season or the whole club.
func (d *Desk) Review(asked ReviewAsked) (Review, error) {
	read, err := d.ReadReview(asked)
	if err != nil {
		return Review{}, err
	}
	return read.Compile()
}

// ReadReview reads what a review looks back on.
func (d *Desk) ReadReview(asked ReviewAsked) (ReviewRead, error) {
	r := ReviewRead{options: d.options, review: Review{At: d.Instant()}}
	err := d.book.Read(func(v inventory.View) (err error) {
		r.review.Club = inventory.ClubOf(v).Name
		if r.span, err = d.reviewSpan(asked, r.review.At); err != nil {
			return err
		}
		return r.read(v, asked)
	})
	return r, err
}

// ReviewTags looks back on a bin where there is no book: the tags are all that is known.
func ReviewTags(o Options, scans []string) (Review, error) {
	r := ReviewRead{options: o, review: Review{At: o.Now()}, span: review.Span{Until: o.Now()}}
	if err := r.read(&inventory.Ledger{}, ReviewAsked{Scans: scans, Bin: true}); err != nil {
		return Review{}, err
	}
	return r.Compile()
}

// NoBook tells whether an error says that there is no book.
func NoBook(err error) bool {
	var absent *book.AbsentError
	return errors.As(err, &absent)
}

// reviewSpan is the time that is looked back on.
func (d *Desk) reviewSpan(asked ReviewAsked, at time.Time) (review.Span, error) {
	span := review.Span{Until: at}
	if asked.Season == "" {
		return span, nil
	}
	when, err := inventory.ParseWhen(asked.Season, d.zone)
	if err != nil || when.Unknown() || when.Exact() {
		return span, &inventory.BadValue{Reason: asked.Season + " is no season", Hint: "write it as 2025/26, or a year or a month: 2025-11"}
	}
	span.From = when.Start
	if when.End.Before(at) {
		span.Until = when.End
	}
	return span, nil
}

func (r *ReviewRead) read(v inventory.View, asked ReviewAsked) (err error) {
	from := r.span.From
	if from.IsZero() {
		from = firstSession(v, r.span.Until)
	}
	reader := review.NewReader(v, review.ReadSessions(v, from, r.span.Until), r.span.From, r.span.Until)
	if r.lives, err = r.review.lives(v, reader, asked, r.span); err != nil {
		return err
	}
	r.unworked = reader.Unworked()
	r.who = map[inventory.Number]reviewed{}
	for _, life := range r.lives {
		name, goalkeeper := reader.Who(life.Player)
		r.who[life.Player] = reviewed{name, goalkeeper}
	}
	return nil
}

// Compile works out what is told of it, without the book.
func (r ReviewRead) Compile() (Review, error) {
	who := func(n inventory.Number) (string, bool) { return r.who[n].name, r.who[n].goalkeeper }
	compiled, err := review.Compile(r.lives, who, r.span, wear.Defaults())
	if err != nil {
		return r.review, err
	}
	r.review.Review = *compiled
	r.review.Unworked = append(r.review.Unworked, r.unworked...)
	r.options.keepUnworked("a review", r.review.Unworked)
	if r.review.Bin != nil {
		r.review.Pieces = len(r.lives)
	}
	return r.review, nil
}

// furthestBack is how far before an instant sessions are counted from: longer than any
// piece is kept in use.
const furthestBack = 15

func firstSession(_ inventory.View, until time.Time) time.Time {
	return until.AddDate(-furthestBack, 0, 0)
}

// lives are the pieces that the review is about.
func (r *Review) lives(v inventory.View, reader *review.Reader, asked ReviewAsked, span review.Span) ([]*review.Life, error) {
	r.Scope = "the whole club"
	if asked.Bin {
		bin := reader.SortBin(asked.Scans)
		r.Bin, r.Scope = &bin, "a bin"
		return bin.Lives, nil
	}
	var player inventory.Number
	if asked.Player != "" {
		n, err := lookUpPlayer(v, asked.Player, r.At)
		if err != nil {
			return nil, err
		}
		player, r.OnePlayer = n, true
		r.Scope, _ = reader.Who(n)
	}
	if asked.Season != "" {
		r.Scope += ", " + asked.Season
	}
	var lives []*review.Life
	for _, kind := range []inventory.Kind{inventory.KindRunner, inventory.KindHolder} {
		v.Each(kind, func(n inventory.Number, _ inventory.Entity) bool {
			if life, known := reader.Life(n); known && life.Within(span.From) && (player == 0 || life.Player == player) {
				lives = append(lives, life)
			}
			return true
		})
	}
	return lives, nil
}

// What a review is made of; see package review.
type (
	Life         = review.Life
	PlayerReview = review.Player
	Spread       = review.Spread
	Loss         = review.Loss
	Apart        = review.Apart
	Hand         = review.Hand
	Sides        = review.Sides
	Finding      = review.Finding
)

// Differs is the verdict of a finding; every other one is that nobody can say.
const Differs = review.Differs
