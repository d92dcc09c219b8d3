package desk

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/outlook"
	"steeltally/inventory/standing"
	"steeltally/inventory/wear"
	"steeltally/labels/plot"
)

// BuyList is what to buy until a day.
type BuyList struct {
	outlook.BuyList
	At    time.Time
	Lead  int    // days from an order to the shelf
	Short string // why it does not reach as far as was asked
}

// Need is one line of a list of what to buy.
type Need = outlook.Need

const playSeed = 0x7465726e

// BuyList tells which sets to buy until a day, for a lead time in days.
func (d *Desk) BuyList(until string, lead int) (BuyList, error) {
	at := d.Instant()
	list := BuyList{At: at, Lead: lead}
	day, err := d.dayTyped(until)
	if err != nil {
		return list, err
	}
	if !day.After(at) {
		return list, &inventory.BadValue{Reason: until + " is over already", Hint: "give a day that is still to come"}
	}
	o, err := d.look(at)
	if err != nil {
		return list, err
	}
	shelf, err := d.shelf(at)
	if err != nil {
		return list, err
	}
	bought, err := o.Buy(day.Add(-time.Second), shelf, playSource(at))
	if errors.Is(err, wear.ErrNoSchedule) {
		return list, &inventory.Refusal{Reason: "no sessions are in the schedule, so nobody knows how much will be ground", Hint: "steeltally game add"}
	}
	d.options.keepUnworked("what to buy", bought.Unworked)
	list.BuyList = bought
	if last := o.Until(); err == nil && last.AddDate(0, 0, 1).Before(day) {
		list.Short = fmt.Sprintf("the schedule ends on %s: counted until then", last.Format("2 Jan 2006"))
	}
	return list, err
}

// stockAhead is how many weeks ahead the stock is drawn.
const stockAhead = 10

// stockLeft is how many sets will be left over the next weeks; nothing without a schedule.
func (d *Desk) stockLeft(o *outlook.Outlook, at time.Time) (plot.StockLeft, error) {
	var left plot.StockLeft
	shelf, err := d.shelf(at)
	if err != nil {
		return left, err
	}
	list, err := o.Buy(at.AddDate(0, 0, 7*stockAhead), shelf, playSource(at))
	if errors.Is(err, wear.ErrNoSchedule) {
		return left, nil
	}
	left.Days = list.Days
	for _, r := range list.Left {
		left.Low, left.Middle, left.High = append(left.Low, r.Low), append(left.Middle, r.Middle), append(left.High, r.High)
	}
	return left, err
}

// playSource makes a list of the same record the same.
func playSource(at time.Time) *rand.Rand { return rand.New(rand.NewPCG(playSeed, uint64(at.Unix()))) }

// shelf counts the runners that lie in stock, in no set and sound, by fit.
func (d *Desk) shelf(at time.Time) (map[outlook.Fit]int, error) {
	shelf := map[outlook.Fit]int{}
	err := d.book.Read(func(v inventory.View) error {
		for _, entity := range eachOf(v, inventory.KindRunner) {
			if runner := entity.(*inventory.Runner); standing.StateOf(v, runner.Number, at) == inventory.InStock {
				shelf[outlook.Fit{Model: runner.Model, Left: runner.Size, Right: runner.Size}]++
			}
		}
		return nil
	})
	return shelf, err
}
