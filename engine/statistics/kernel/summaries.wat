;; What is found of many values at once: bins and moments of a batch, distances of trials, and counts of them. The plain loops
;; of binned-run.ts, moments.ts and ../../joint are the reference: the same numbers to the bit.
;;
;; Memory, in bytes (summaries.ts holds the same numbers):
;;       0  six sums, doubles
;;      64  counts of the bins, 16 bits each
;;   16384  bins of the values, 16 bits each
;;   98304  values, 40960 doubles
;;  425984  values in the order of their bins
;;  753664  columns of joint trials
(module
  (memory (export "memory") 12)

  ;; Notes the bins of $count values, an even number, from 98304 on, and counts them, two places further on. $last is the last
  ;; bin. Returns the sum of value - shift, in the order of the values.
  (func (export "bin") (param $count i32) (param $low f64) (param $density f64) (param $last i32) (param $shift f64) (result f64)
    (local $at i32) (local $end i32) (local $v v128) (local $lows v128) (local $densities v128) (local $lasts v128)
    (local $shifts v128) (local $sum f64) (local $one i32) (local $other i32) (local $place v128)
    (local.set $lows (f64x2.splat (local.get $low)))
    (local.set $densities (f64x2.splat (local.get $density)))
    (local.set $lasts (i32x4.splat (local.get $last)))
    (local.set $shifts (f64x2.splat (local.get $shift)))
    (local.set $end (i32.shl (local.get $count) (i32.const 3)))
    (block $done
      (br_if $done (i32.eqz (local.get $count)))
      (loop $pairs
        (local.set $v (v128.load offset=98304 (local.get $at)))
        ;; What is below the first bin, or no number, is cut to 0.
        (local.set $place (i32x4.min_u (local.get $lasts) (i32x4.trunc_sat_f64x2_u_zero
          (f64x2.mul (f64x2.sub (local.get $v) (local.get $lows)) (local.get $densities)))))
        (local.set $one (i32x4.extract_lane 0 (local.get $place)))
        (local.set $other (i32x4.extract_lane 1 (local.get $place)))
        (i32.store offset=16384 (i32.shr_u (local.get $at) (i32.const 2)) (i32.or (local.get $one) (i32.shl (local.get $other) (i32.const 16))))
        (local.set $one (i32.shl (local.get $one) (i32.const 1)))
        (i32.store16 offset=68 (local.get $one) (i32.add (i32.load16_u offset=68 (local.get $one)) (i32.const 1)))
        (local.set $other (i32.shl (local.get $other) (i32.const 1)))
        (i32.store16 offset=68 (local.get $other) (i32.add (i32.load16_u offset=68 (local.get $other)) (i32.const 1)))
        (local.set $v (f64x2.sub (local.get $v) (local.get $shifts)))
        (local.set $sum (f64.add (f64.add (local.get $sum) (f64x2.extract_lane 0 (local.get $v))) (f64x2.extract_lane 1 (local.get $v))))
        (br_if $pairs (i32.lt_u (local.tee $at (i32.add (local.get $at) (i32.const 16))) (local.get $end)))))
    (local.get $sum))

  ;; Writes the values in the order of their bins, and the sums of (value - mean)^k, k = 1 to 4, to the first four doubles.
  ;; The count of a bin becomes the place of its first value, two places further on, which filling advances.
  (func (export "arrange") (param $count i32) (param $bins i32) (param $mean f64)
    (local $at i32) (local $end i32) (local $v v128) (local $means v128) (local $d v128) (local $s v128) (local $c v128) (local $q v128)
    (local $low v128) (local $high v128) (local $slot i32) (local $to i32) (local $zero v128)
    (local.set $means (f64x2.splat (local.get $mean)))
    (local.set $end (i32.shl (local.get $bins) (i32.const 1)))
    (loop $prefix
      (local.set $to (i32.add (local.get $to) (i32.load16_u offset=68 (local.get $at))))
      (i32.store16 offset=68 (local.get $at) (local.get $to))
      (br_if $prefix (i32.lt_u (local.tee $at (i32.add (local.get $at) (i32.const 2))) (local.get $end))))
    (local.set $at (i32.const 0))
    (local.set $end (i32.shl (local.get $count) (i32.const 3)))
    (block $done
      (br_if $done (i32.eqz (local.get $count)))
      (loop $pairs
        (local.set $v (v128.load offset=98304 (local.get $at)))
        (local.set $d (f64x2.sub (local.get $v) (local.get $means)))
        (local.set $s (f64x2.mul (local.get $d) (local.get $d)))
        (local.set $c (f64x2.mul (local.get $s) (local.get $d)))
        (local.set $q (f64x2.mul (local.get $s) (local.get $s)))
        (local.set $low (f64x2.add (local.get $low) (i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 20 21 22 23 (local.get $d) (local.get $s))))
        (local.set $high (f64x2.add (local.get $high) (i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 20 21 22 23 (local.get $c) (local.get $q))))
        (local.set $low (f64x2.add (local.get $low) (i8x16.shuffle 8 9 10 11 12 13 14 15 24 25 26 27 28 29 30 31 (local.get $d) (local.get $s))))
        (local.set $high (f64x2.add (local.get $high) (i8x16.shuffle 8 9 10 11 12 13 14 15 24 25 26 27 28 29 30 31 (local.get $c) (local.get $q))))
        ;; One zero: -0 and 0 have no order.
        (local.set $v (f64x2.add (local.get $v) (local.get $zero)))
        (local.set $slot (i32.shl (i32.load16_u offset=16384 (i32.shr_u (local.get $at) (i32.const 2))) (i32.const 1)))
        (local.set $to (i32.load16_u offset=66 (local.get $slot)))
        (i32.store16 offset=66 (local.get $slot) (i32.add (local.get $to) (i32.const 1)))
        (f64.store offset=425984 (i32.shl (local.get $to) (i32.const 3)) (f64x2.extract_lane 0 (local.get $v)))
        (local.set $slot (i32.shl (i32.load16_u offset=16386 (i32.shr_u (local.get $at) (i32.const 2))) (i32.const 1)))
        (local.set $to (i32.load16_u offset=66 (local.get $slot)))
        (i32.store16 offset=66 (local.get $slot) (i32.add (local.get $to) (i32.const 1)))
        (f64.store offset=425984 (i32.shl (local.get $to) (i32.const 3)) (f64x2.extract_lane 1 (local.get $v)))
        (br_if $pairs (i32.lt_u (local.tee $at (i32.add (local.get $at) (i32.const 16))) (local.get $end)))))
    (v128.store (i32.const 0) (local.get $low))
    (v128.store (i32.const 16) (local.get $high)))

  ;; One measurand of the forward substitution z = L^-1 (y - mean): writes z to $out from the column at $column, taking away the
  ;; $earlier columns from $others on, each $stride bytes, with the weights at $weights, and adds z^2 to the distances at $sums.
  (func (export "whiten") (param $column i32) (param $mean f64) (param $out i32) (param $others i32) (param $stride i32)
    (param $weights i32) (param $earlier i32) (param $scale f64) (param $sums i32) (param $count i32)
    (local $at i32) (local $end i32) (local $z v128) (local $means v128) (local $scales v128) (local $k i32) (local $other i32)
    (local.set $means (f64x2.splat (local.get $mean)))
    (local.set $scales (f64x2.splat (local.get $scale)))
    (local.set $end (i32.shl (local.get $count) (i32.const 3)))
    (loop $pairs
      (local.set $z (f64x2.sub (v128.load (i32.add (local.get $column) (local.get $at))) (local.get $means)))
      (block $taken
        (br_if $taken (i32.eqz (local.get $earlier)))
        (local.set $k (i32.const 0))
        (local.set $other (i32.add (local.get $others) (local.get $at)))
        (loop $take
          (local.set $z (f64x2.sub (local.get $z) (f64x2.mul
            (v128.load64_splat (i32.add (local.get $weights) (i32.shl (local.get $k) (i32.const 3)))) (v128.load (local.get $other)))))
          (local.set $other (i32.add (local.get $other) (local.get $stride)))
          (br_if $take (i32.lt_u (local.tee $k (i32.add (local.get $k) (i32.const 1))) (local.get $earlier)))))
      (local.set $z (f64x2.mul (local.get $z) (local.get $scales)))
      (v128.store (i32.add (local.get $out) (local.get $at)) (local.get $z))
      (v128.store (i32.add (local.get $sums) (local.get $at)) (f64x2.add
        (v128.load (i32.add (local.get $sums) (local.get $at))) (f64x2.mul (local.get $z) (local.get $z))))
      (br_if $pairs (i32.lt_u (local.tee $at (i32.add (local.get $at) (i32.const 16))) (local.get $end)))))

  ;; Returns the sum of (a - shiftA)*(b - shiftB) of $count trials, in four sums that take every fourth trial each; what is left
  ;; of a last four goes to the first of them.
  (func (export "products") (param $a i32) (param $shiftA f64) (param $b i32) (param $shiftB f64) (param $count i32) (result f64)
    (local $end i32) (local $fours i32) (local $shiftAs v128) (local $shiftBs v128) (local $s v128) (local $t v128) (local $first f64)
    (local.set $shiftAs (f64x2.splat (local.get $shiftA)))
    (local.set $shiftBs (f64x2.splat (local.get $shiftB)))
    (local.set $end (i32.add (local.get $a) (i32.shl (local.get $count) (i32.const 3))))
    (local.set $fours (i32.add (local.get $a) (i32.shl (i32.and (local.get $count) (i32.const -4)) (i32.const 3))))
    (block $none
      (br_if $none (i32.ge_u (local.get $a) (local.get $fours)))
      (loop $add
        (local.set $s (f64x2.add (local.get $s) (f64x2.mul
          (f64x2.sub (v128.load align=8 (local.get $a)) (local.get $shiftAs))
          (f64x2.sub (v128.load align=8 (local.get $b)) (local.get $shiftBs)))))
        (local.set $t (f64x2.add (local.get $t) (f64x2.mul
          (f64x2.sub (v128.load offset=16 align=8 (local.get $a)) (local.get $shiftAs))
          (f64x2.sub (v128.load offset=16 align=8 (local.get $b)) (local.get $shiftBs)))))
        (local.set $b (i32.add (local.get $b) (i32.const 32)))
        (br_if $add (i32.lt_u (local.tee $a (i32.add (local.get $a) (i32.const 32))) (local.get $fours)))))
    (local.set $first (f64x2.extract_lane 0 (local.get $s)))
    (block $whole
      (br_if $whole (i32.ge_u (local.get $a) (local.get $end)))
      (loop $add
        (local.set $first (f64.add (local.get $first) (f64.mul
          (f64.sub (f64.load (local.get $a)) (local.get $shiftA))
          (f64.sub (f64.load (local.get $b)) (local.get $shiftB)))))
        (local.set $b (i32.add (local.get $b) (i32.const 8)))
        (br_if $add (i32.lt_u (local.tee $a (i32.add (local.get $a) (i32.const 8))) (local.get $end)))))
    (f64.add
      (f64.add (local.get $first) (f64x2.extract_lane 1 (local.get $s)))
      (f64.add (f64x2.extract_lane 0 (local.get $t)) (f64x2.extract_lane 1 (local.get $t)))))

  ;; Raises what is at $greatest to |value - mean|*scale.
  (func (export "raise") (param $column i32) (param $mean f64) (param $scale f64) (param $greatest i32) (param $count i32)
    (local $at i32) (local $end i32) (local $means v128) (local $scales v128)
    (local.set $means (f64x2.splat (local.get $mean)))
    (local.set $scales (f64x2.splat (local.get $scale)))
    (local.set $end (i32.shl (local.get $count) (i32.const 3)))
    (loop $pairs
      (v128.store (i32.add (local.get $greatest) (local.get $at)) (f64x2.max
        (v128.load (i32.add (local.get $greatest) (local.get $at)))
        (f64x2.mul (f64x2.abs (f64x2.sub (v128.load (i32.add (local.get $column) (local.get $at))) (local.get $means))) (local.get $scales))))
      (br_if $pairs (i32.lt_u (local.tee $at (i32.add (local.get $at) (i32.const 16))) (local.get $end)))))

  ;; Counts the $count values at $values below $low, writes those from $low to $high to $between, and puts the end of what was
  ;; written into the first word of memory. Returns the count.
  (func (export "gather") (param $values i32) (param $count i32) (param $low f64) (param $high f64) (param $between i32) (result i32)
    (local $at i32) (local $end i32) (local $v v128) (local $lows v128) (local $highs v128) (local $below v128) (local $under v128) (local $in i32)
    (local.set $lows (f64x2.splat (local.get $low)))
    (local.set $highs (f64x2.splat (local.get $high)))
    (local.set $at (local.get $values))
    (local.set $end (i32.add (local.get $values) (i32.shl (local.get $count) (i32.const 3))))
    (loop $pairs
      (local.set $v (v128.load (local.get $at)))
      (local.set $under (f64x2.lt (local.get $v) (local.get $lows)))
      (local.set $below (i64x2.sub (local.get $below) (local.get $under)))
      (local.set $in (i64x2.bitmask (v128.andnot (f64x2.le (local.get $v) (local.get $highs)) (local.get $under))))
      (block $none
        (br_if $none (i32.eqz (local.get $in)))
        (f64.store (local.get $between) (f64x2.extract_lane 0 (local.get $v)))
        (local.set $between (i32.add (local.get $between) (i32.shl (i32.and (local.get $in) (i32.const 1)) (i32.const 3))))
        (f64.store (local.get $between) (f64x2.extract_lane 1 (local.get $v)))
        (local.set $between (i32.add (local.get $between) (i32.shl (i32.and (local.get $in) (i32.const 2)) (i32.const 2)))))
      (br_if $pairs (i32.lt_u (local.tee $at (i32.add (local.get $at) (i32.const 16))) (local.get $end))))
    (i32.store (i32.const 0) (local.get $between))
    (i32.wrap_i64 (i64.add (i64x2.extract_lane 0 (local.get $below)) (i64x2.extract_lane 1 (local.get $below)))))

  ;; Counts trials of two columns in a mesh of $cells by $cells at $counts, words, row by row of the second; those outside in the
  ;; word behind them.
  (func (export "mesh") (param $a i32) (param $b i32) (param $count i32) (param $counts i32) (param $cells i32)
    (param $lowA f64) (param $scaleA f64) (param $lowB f64) (param $scaleB f64)
    (local $at i32) (local $end i32) (local $i v128) (local $j v128) (local $most v128) (local $index v128) (local $inside v128)
    (local $outside v128) (local $row v128) (local $lowAs v128) (local $scaleAs v128) (local $lowBs v128) (local $scaleBs v128)
    (local $to i32) (local $zero v128)
    (local.set $most (f64x2.splat (f64.convert_i32_u (local.get $cells))))
    (local.set $row (i32x4.splat (local.get $cells)))
    (local.set $outside (i32x4.splat (i32.mul (local.get $cells) (local.get $cells))))
    (local.set $lowAs (f64x2.splat (local.get $lowA)))
    (local.set $scaleAs (f64x2.splat (local.get $scaleA)))
    (local.set $lowBs (f64x2.splat (local.get $lowB)))
    (local.set $scaleBs (f64x2.splat (local.get $scaleB)))
    (local.set $end (i32.shl (local.get $count) (i32.const 3)))
    (loop $pairs
      (local.set $i (f64x2.mul (f64x2.sub (v128.load (i32.add (local.get $a) (local.get $at))) (local.get $lowAs)) (local.get $scaleAs)))
      (local.set $j (f64x2.mul (f64x2.sub (v128.load (i32.add (local.get $b) (local.get $at))) (local.get $lowBs)) (local.get $scaleBs)))
      (local.set $inside (v128.and
        (v128.and (f64x2.ge (local.get $i) (local.get $zero)) (f64x2.lt (local.get $i) (local.get $most)))
        (v128.and (f64x2.ge (local.get $j) (local.get $zero)) (f64x2.lt (local.get $j) (local.get $most)))))
      (local.set $index (v128.bitselect
        (i32x4.add (i32x4.mul (i32x4.trunc_sat_f64x2_s_zero (local.get $j)) (local.get $row)) (i32x4.trunc_sat_f64x2_s_zero (local.get $i)))
        (local.get $outside)
        (i8x16.shuffle 0 1 2 3 8 9 10 11 0 1 2 3 8 9 10 11 (local.get $inside) (local.get $inside))))
      (local.set $to (i32.add (local.get $counts) (i32.shl (i32x4.extract_lane 0 (local.get $index)) (i32.const 2))))
      (i32.store (local.get $to) (i32.add (i32.load (local.get $to)) (i32.const 1)))
      (local.set $to (i32.add (local.get $counts) (i32.shl (i32x4.extract_lane 1 (local.get $index)) (i32.const 2))))
      (i32.store (local.get $to) (i32.add (i32.load (local.get $to)) (i32.const 1)))
      (br_if $pairs (i32.lt_u (local.tee $at (i32.add (local.get $at) (i32.const 16))) (local.get $end))))))
