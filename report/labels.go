package report

// Where a label goes. A line that carries its own name needs no legend, but the name
// must not sit on another line. Each label comes with several places in order of
// liking; the first one that is clear is taken, or else the least bad.

// placer remembers what is already on the chart.
type placer struct {
	c      canvas
	bounds frame
	taken  []box
	ink    []xy // lines, as points close to each other
}

type box struct{ left, top, right, bottom float64 }

func (b box) overlap(o box) float64 {
	w := min(b.right, o.right) - max(b.left, o.left)
	h := min(b.bottom, o.bottom) - max(b.top, o.top)
	if w <= 0 || h <= 0 {
		return 0
	}
	return w * h
}

func (b box) holds(p xy) bool {
	return p.x >= b.left && p.x <= b.right && p.y >= b.top && p.y <= b.bottom
}

// spot is one place for a label.
type spot struct {
	at xy
	a  anchor
}

// avoid makes labels keep clear of a line.
func (p *placer) avoid(line []xy) {
	const apart = 2
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		n := int(max(abs(b.x-a.x), abs(b.y-a.y))/apart) + 1
		for k := 0; k <= n; k++ {
			t := float64(k) / float64(n)
			p.ink = append(p.ink, xy{a.x + (b.x-a.x)*t, a.y + (b.y-a.y)*t})
		}
	}
}

func (p *placer) boxAt(s spot, bold bool, text string) box {
	w, size := p.c.textWidth(bold, text), p.c.textSize()
	left := s.at.x
	switch s.a {
	case middle:
		left -= w / 2
	case end:
		left -= w
	}
	return box{left, s.at.y - size*0.8, left + w, s.at.y + size*0.25}
}

// put writes the text at the best of the spots and says whether it did: a label
// without any tolerable place is left out if it may be.
func (p *placer) put(r role, bold bool, text string, mayGo bool, spots []spot) bool {
	const slack = 0.5 // a text set against the edge may round to just beyond it
	best, bestCost := -1, 0.0
	for i, s := range spots {
		b := p.boxAt(s, bold, text)
		if b.left < p.bounds.left-slack || b.right > p.bounds.right+slack || b.top < p.bounds.top-1 || b.bottom > p.bounds.bottom {
			continue
		}
		cost := float64(i) * 0.01
		for _, t := range p.taken {
			cost += b.overlap(t) * 5 // text over text is far worse than text over a line
		}
		for _, q := range p.ink {
			if b.holds(q) {
				cost++
			}
		}
		if best < 0 || cost < bestCost {
			best, bestCost = i, cost
		}
	}
	if best < 0 || mayGo && bestCost > 8 {
		return false
	}
	s := spots[best]
	p.c.text(r, s.at, s.a, bold, text)
	p.taken = append(p.taken, p.boxAt(s, bold, text))
	return true
}

// along gives places beside a line: above it reading away from it, and below it
// reading back towards it, which for a falling line are the clear sides.
func along(line []xy, size float64, above bool) []spot {
	var spots []spot
	gap := size * 0.45
	for _, t := range []float64{0.22, 0.3, 0.38, 0.46, 0.54, 0.62, 0.14, 0.7, 0.78, 0.86, 0.06} {
		q, ok := partWay(line, t)
		if !ok {
			return nil
		}
		up := spot{xy{q.x + gap, q.y - gap}, start}
		down := spot{xy{q.x - gap, q.y + gap + size*0.75}, end}
		if above {
			spots = append(spots, up)
		} else {
			spots = append(spots, down)
		}
	}
	return spots
}

// partWay is the point of a line at a share of its width.
func partWay(line []xy, share float64) (xy, bool) {
	if len(line) < 2 {
		return xy{}, false
	}
	x := line[0].x + (line[len(line)-1].x-line[0].x)*share
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		if x <= b.x && b.x > a.x {
			return xy{x, a.y + (b.y-a.y)*(x-a.x)/(b.x-a.x)}, true
		}
	}
	return line[len(line)-1], true
}

func abs(v float64) float64 { return max(v, -v) }
