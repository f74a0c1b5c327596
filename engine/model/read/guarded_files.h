// Files for Assimp that do not let it read on for ever.
//
// Some of its readers (PLY, cut short) ask again and again for bytes past the end of the file.
// After kMostEmptyReads reads that gave nothing the stream throws, which ends the reading.
#pragma once

#include <assimp/DefaultIOSystem.h>

#include <assimp/IOStream.hpp>
#include <memory>
#include <stdexcept>

namespace hummock {

class GuardedStream : public Assimp::IOStream {
 public:
  static constexpr int kMostEmptyReads = 1000;

  GuardedStream(Assimp::IOSystem& owner, Assimp::IOStream* inner) : owner_(owner), inner_(inner) {}
  ~GuardedStream() override { owner_.Close(inner_); }
  GuardedStream(const GuardedStream&) = delete;
  GuardedStream& operator=(const GuardedStream&) = delete;

  size_t Read(void* buffer, size_t size, size_t count) override {
    const size_t got = inner_->Read(buffer, size, count);
    if (got == 0 && ++empty_reads_ > kMostEmptyReads) throw std::runtime_error("ends too early");
    return got;
  }
  size_t Write(const void* buffer, size_t size, size_t count) override {
    return inner_->Write(buffer, size, count);
  }
  aiReturn Seek(size_t offset, aiOrigin origin) override { return inner_->Seek(offset, origin); }
  size_t Tell() const override { return inner_->Tell(); }
  size_t FileSize() const override { return inner_->FileSize(); }
  void Flush() override { inner_->Flush(); }

 private:
  Assimp::IOSystem& owner_;
  Assimp::IOStream* inner_;
  int empty_reads_ = 0;
};

class GuardedFiles : public Assimp::DefaultIOSystem {
 public:
  Assimp::IOStream* Open(const char* file, const char* mode) override {
    Assimp::IOStream* inner = plain_.Open(file, mode);
    return inner == nullptr ? nullptr : new GuardedStream(plain_, inner);
  }
  void Close(Assimp::IOStream* stream) override { delete stream; }

 private:
  Assimp::DefaultIOSystem plain_;
};

}  // namespace hummock
