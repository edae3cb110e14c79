;; The butterflies of real-transform.ts, two at a time: the same numbers to the bit.
(module
  ;; 4 MiB: two columns of 65536 numbers, then tables of sines and cosines, as real-transform.ts places them.
  (memory (export "memory") 64)

  ;; Turns $n complex numbers in bit-reversed order, parts at $re and $im, by the tables of 2*$n at $cosines and $sines. Only
  ;; the first and the last $few numbers, an even number, need come out: in groups more than twice as long the others are
  ;; left as they are.
  (func (export "turn") (param $re i32) (param $im i32) (param $n i32) (param $cosines i32) (param $sines i32) (param $few i32)
    (local $gap i32) (local $skip i32)
    (local $end i32) (local $half i32) (local $stride i32) (local $from i32) (local $stop i32) (local $a i32) (local $at i32)
    (local $c f64) (local $s f64) (local $x f64) (local $y f64) (local $r f64) (local $i f64) (local $low i32) (local $high i32)
    (local $cs v128) (local $ss v128) (local $rs v128) (local $is v128) (local $xs v128) (local $ys v128)
    (local.set $end (i32.shl (local.get $n) (i32.const 3)))
    (local.set $c (f64.load (local.get $cosines)))
    (local.set $s (f64.load (local.get $sines)))
    (loop $twos
      (local.set $low (i32.add (local.get $re) (local.get $a)))
      (local.set $high (i32.add (local.get $im) (local.get $a)))
      (local.set $r (f64.load offset=8 (local.get $low)))
      (local.set $i (f64.load offset=8 (local.get $high)))
      (local.set $x (f64.add (f64.mul (local.get $r) (local.get $c)) (f64.mul (local.get $i) (local.get $s))))
      (local.set $y (f64.sub (f64.mul (local.get $i) (local.get $c)) (f64.mul (local.get $r) (local.get $s))))
      (f64.store offset=8 (local.get $low) (f64.sub (f64.load (local.get $low)) (local.get $x)))
      (f64.store offset=8 (local.get $high) (f64.sub (f64.load (local.get $high)) (local.get $y)))
      (f64.store (local.get $low) (f64.add (f64.load (local.get $low)) (local.get $x)))
      (f64.store (local.get $high) (f64.add (f64.load (local.get $high)) (local.get $y)))
      (br_if $twos (i32.lt_u (local.tee $a (i32.add (local.get $a) (i32.const 16))) (local.get $end))))
    (local.set $half (i32.const 16))
    (local.set $stride (i32.shl (local.get $n) (i32.const 2)))
    (local.set $few (i32.shl (local.get $few) (i32.const 3)))
    (loop $sizes
      ;; What lies between the first and the last of a group, in bytes of a column.
      (local.set $gap (i32.sub (local.get $half) (i32.shl (local.get $few) (i32.const 1))))
      (local.set $from (i32.const 0))
      (loop $groups
        (local.set $at (i32.const 0))
        (local.set $a (local.get $from))
        (local.set $stop (i32.add (local.get $from) (local.get $half)))
        (local.set $skip (i32.add (local.get $from) (local.get $few)))
        (loop $pairs
          (local.set $cs (v128.load64_lane 1
            (i32.add (i32.add (local.get $cosines) (local.get $at)) (local.get $stride))
            (v128.load64_zero (i32.add (local.get $cosines) (local.get $at)))))
          (local.set $ss (v128.load64_lane 1
            (i32.add (i32.add (local.get $sines) (local.get $at)) (local.get $stride))
            (v128.load64_zero (i32.add (local.get $sines) (local.get $at)))))
          (local.set $low (i32.add (local.get $re) (local.get $a)))
          (local.set $high (i32.add (local.get $im) (local.get $a)))
          (local.set $rs (v128.load align=8 (i32.add (local.get $low) (local.get $half))))
          (local.set $is (v128.load align=8 (i32.add (local.get $high) (local.get $half))))
          (local.set $xs (f64x2.add (f64x2.mul (local.get $rs) (local.get $cs)) (f64x2.mul (local.get $is) (local.get $ss))))
          (local.set $ys (f64x2.sub (f64x2.mul (local.get $is) (local.get $cs)) (f64x2.mul (local.get $rs) (local.get $ss))))
          (v128.store align=8 (i32.add (local.get $low) (local.get $half)) (f64x2.sub (v128.load align=8 (local.get $low)) (local.get $xs)))
          (v128.store align=8 (i32.add (local.get $high) (local.get $half)) (f64x2.sub (v128.load align=8 (local.get $high)) (local.get $ys)))
          (v128.store align=8 (local.get $low) (f64x2.add (v128.load align=8 (local.get $low)) (local.get $xs)))
          (v128.store align=8 (local.get $high) (f64x2.add (v128.load align=8 (local.get $high)) (local.get $ys)))
          (local.set $at (i32.add (local.get $at) (i32.shl (local.get $stride) (i32.const 1))))
          (local.set $a (i32.add (local.get $a) (i32.const 16)))
          (if (i32.and (i32.eq (local.get $a) (local.get $skip)) (i32.gt_s (local.get $gap) (i32.const 0)))
            (then
              (local.set $a (i32.add (local.get $a) (local.get $gap)))
              (local.set $at (i32.add (local.get $at) (i32.mul (i32.shr_u (local.get $gap) (i32.const 3)) (local.get $stride))))))
          (br_if $pairs (i32.lt_u (local.get $a) (local.get $stop))))
        (br_if $groups (i32.lt_u (local.tee $from (i32.add (local.get $from) (i32.shl (local.get $half) (i32.const 1)))) (local.get $end))))
      (local.set $stride (i32.shr_u (local.get $stride) (i32.const 1)))
      (br_if $sizes (i32.lt_u (local.tee $half (i32.shl (local.get $half) (i32.const 1))) (local.get $end))))))
