// Package plot draws what steel went through and what is to be expected of it, from
// plain series: for the PDF and for a screen alike, to be read at arm's length in black
// and white print. Lines carry their names where they end; no colour, no legend apart.
package plot
